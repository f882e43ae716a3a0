using SensorLab.Simulation.Bodies;

namespace SensorLab.FlawMatrix;

/// <summary>A body of the study, with a sensor small enough for thousands of sets.</summary>
/// <param name="Name">What options and tables call it.</param>
/// <param name="Body">Its properties.</param>
/// <param name="Iso">The ISO at which flaws of one ISO are tried.</param>
internal sealed record MatrixBody(string Name, VirtualBody Body, int Iso)
{
    private const int Width = 240;
    private const int Height = 160;

    /// <summary>ISOs for flaws that only show when several are laid side by side.</summary>
    public static IReadOnlyList<int> SeriesOfIsos { get; } = [100, 400, 1600];

    /// <summary>The bodies of the matrix: channels of different sensitivity that fill their wells, one channel that its converter cuts off, and large patterns of filters.</summary>
    public static IReadOnlyList<MatrixBody> OfMatrix => [.. All.Take(2), .. All.TakeLast(2)];

    /// <summary>Eight bodies for clean sets: what makes checks err, and nothing wrong with any.</summary>
    public static IReadOnlyList<MatrixBody> All { get; } =
    [
        new("colour", Small with { Model = "LM-2", Shutter = new ShutterSeries { StepsPerStop = 2 } }, 100),
        new(
            "monochrome",
            Small with
            {
                Model = "LM-2m", ColourFilterArray = "monochrome", WidthPixels = Width / 2, HeightPixels = Height / 2, BitDepth = 12,
                BlackLevelDn = 128.5, PrnuPercent = 0.9, DsnuElectron = 1.5, IsoSettings = Settings(7.5, 1.3, 6, 3300),
            },
            400),
        new(
            "patterned",
            Small with
            {
                Model = "LM-2p", ColourFilterArray = "GBRG", MaskedLeftPixels = 8, MaskedTopPixels = 4, PrnuPercent = 1.2, PrnuColumnPercent = 0.2,
                DsnuElectron = 2, DsnuColumnElectron = 0.3, RowNoiseElectron = 0.4, ColumnNoiseElectron = 0.2,
            },
            200),
        new(
            "deep",
            Small with { Model = "LM-2d", BitDepth = 16, BlackLevelDn = 1024.5, IsoSettings = Settings(0.6, 6, 1.5, 4700) },
            100),
        new(
            "coarse",
            Small with { Model = "LM-2c", BitDepth = 12, BlackLevelDn = 100.25, IsoSettings = Settings(9, 0.4, 1, 4200), Shooting = new ShootingHabits { DarkFrames = 8 } },
            100),
        new(
            "patient",
            Small with
            {
                Model = "LM-2h", FullWellElectron = 32_000, Shutter = new ShutterSeries { StepsPerStop = 1 },
                Shooting = new ShootingHabits { FramesPerLevel = 4, DarkFrames = 8, MeterReadings = 3, FramesPerReading = 1 },
            },
            800),
        new(
            "six by six",
            Small with { Model = "LM-6", ColourFilterArray = "6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG", RowNoiseElectron = 0.3, Shutter = new ShutterSeries { StepsPerStop = 2 } },
            100),
        new(
            "quad",
            Small with { Model = "LM-4", ColourFilterArray = "4x4:RRGGRRGGGGBBGGBB", MaskedLeftPixels = 10, MaskedTopPixels = 6, Shutter = new ShutterSeries { StepsPerStop = 2 } },
            100),
    ];

    private static VirtualBody Small => new() { WidthPixels = Width, HeightPixels = Height };

    /// <summary>Full stops from 100 to 3200 with an amplifier's noise behind the gain and a converter's before it.</summary>
    private static VirtualIso[] Settings(double gain, double converterDn, double amplifierElectron, double grey) =>
    [
        .. new[] { 100, 200, 400, 800, 1600, 3200 }.Select(iso =>
        {
            double own = gain * 100 / iso;
            return new VirtualIso
            {
                Iso = iso,
                GainElectronPerDn = own,
                ReadNoiseElectron = double.Hypot(amplifierElectron * (converterDn < 1 ? own / gain : 1), converterDn * own),
                MiddleGreyElectron = grey * 100 / iso,
            };
        }),
    ];
}
