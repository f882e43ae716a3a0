using SensorLab.Planning.Plans;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Tests.Plans;

/// <summary>A body of the study: its sensor, its ISOs, its shutter.</summary>
internal sealed record PlannedBody(string Name, VirtualBody Body, IReadOnlyList<int> Isos, ShutterRange Shutter)
{
    private const int Width = 288;
    private const int Height = 192;

    public static IReadOnlyList<PlannedBody> All { get; } =
    [
        new("LM-2", new VirtualBody { Look = null, WidthPixels = Width, HeightPixels = Height }, [100, 400, 1600], ShutterRange.Common),
        new(
            "LM-1, slower shutter, from ISO 200",
            Of(new VirtualBody { Model = "LM-1", BitDepth = 12, BlackLevelDn = 128.4, FullWellElectron = 60_000, PrnuPercent = 0.8 }, [200, 800, 3200], 2400, 4.1, 2.5),
            [200, 800, 3200],
            new ShutterRange(ShutterTime.Nearest(1.0 / 4000)!.Value, ShutterTime.Nearest(30)!.Value)),
        new(
            "LM-2m, monochrome, short range",
            Of(new VirtualBody { Model = "LM-2m", ColourFilterArray = "monochrome", FullWellElectron = 40_000 }, [100, 800, 6400], 4700, 2.6, 1.5),
            [100, 800, 6400],
            new ShutterRange(ShutterTime.Nearest(1.0 / 2000)!.Value, ShutterTime.Nearest(15)!.Value)),
        new(
            "LM-3, full well below the converter, long range",
            Of(new VirtualBody { Model = "LM-3", FullWellElectron = 70_000, PrnuPercent = 0.4, PatternSeed = 7 }, [64, 250, 1000], 11_000, 5.2, 2.2),
            [64, 250, 1000],
            new ShutterRange(ShutterTime.Nearest(1.0 / 16000)!.Value, ShutterTime.Nearest(60)!.Value)),
    ];

    // An amplifier's noise behind the gain, a code of the converter's before it.
    private static VirtualBody Of(VirtualBody body, int[] isos, double greyElectron, double gainElectronPerDn, double amplifierElectron) => body with
    {
        Look = null,
        WidthPixels = Width,
        HeightPixels = Height,
        IsoSettings =
        [
            .. isos.Select(iso => new VirtualIso
            {
                Iso = iso,
                GainElectronPerDn = gainElectronPerDn * isos[0] / iso,
                ReadNoiseElectron = double.Hypot(amplifierElectron, 1.1 * gainElectronPerDn * isos[0] / iso),
                MiddleGreyElectron = greyElectron * isos[0] / iso,
                FullWellElectron = iso == isos[0] ? null : body.FullWellElectron,
            }),
        ],
    };
}
