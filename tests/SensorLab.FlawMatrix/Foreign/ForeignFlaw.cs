using System.Globalization;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>A flaw as another simulator, or nature, would make it: with another law than the catalogue's.</summary>
/// <param name="Name">What tables call it.</param>
/// <param name="What">What happens, and the unit of the size.</param>
/// <param name="Codes">The findings of which any one names it.</param>
/// <param name="Sizes">The sizes at which it is tried.</param>
/// <param name="Begin">Draws what all frames of a set share, and returns what becomes of each.</param>
internal sealed record ForeignFlaw(string Name, string What, IReadOnlyList<string> Codes, IReadOnlyList<double> Sizes, Func<ForeignScene, Func<PlannedFrame, PlannedFrame>> Begin)
{
    /// <summary>By what the signal at saturation is multiplied at a size; the truth's own where nothing is.</summary>
    public Func<double, double> SaturationFactor { get; init; } = _ => 1;

    /// <summary>By how much more light saturates it at a size, in EV.</summary>
    public Func<double, double> AboveShiftEv { get; init; } = _ => 0;

    /// <summary>By what black moves at a size, in DN: recorded values cut down to whole steps.</summary>
    public Func<double, double> BlackShiftDn { get; init; } = _ => 0;

    /// <summary>Spacing of the codes that are recorded at a size, in DN: its rounding is noise that shadows have.</summary>
    public Func<double, double> StepDn { get; init; } = _ => 1;

    /// <summary>What a file that was reckoned anew makes of what is true, given the size and the largest signal that it can hold, in DN; null where it is as the sensor gave it.</summary>
    public Func<IsoTruth, double, double, IsoTruth>? Recorded { get; init; }

    /// <summary>What it changes in what is owed.</summary>
    public ForeignTerms Terms { get; init; } = new();

    /// <summary>What is true of an ISO with the flaw.</summary>
    /// <param name="truth">What is true without.</param>
    /// <param name="size">The flaw's size.</param>
    /// <param name="mostDn">The largest signal that the file can hold, in DN.</param>
    public IsoTruth Changed(IsoTruth truth, double size, double mostDn) => Recorded is { } recorded ? recorded(truth, size, mostDn) : truth with
    {
        SaturationDn = Math.Min(SaturationFactor(size) * truth.SaturationDn, mostDn),
        AboveEv = truth.AboveEv + AboveShiftEv(size),
        BlackLevelDn = truth.BlackLevelDn + BlackShiftDn(size),
        BelowEv = StepDn(size) == 1 ? truth.BelowEv : truth.BelowEv.ToDictionary(b => b.Key, b => BelowEv(truth, double.Parse(b.Key.AsSpan("snr".Length), CultureInfo.InvariantCulture), StepDn(size))),
    };

    /// <summary>What is true where there is other noise besides, of rows or of photosites: it is part of read noise, and shadows have it.</summary>
    /// <param name="truth">What is true without.</param>
    /// <param name="deviationDn">Its standard deviation in DN.</param>
    /// <param name="ditherDn">Standard deviation of what dithering adds, half of it a pattern that all frames share, in DN.</param>
    public static IsoTruth WithNoise(IsoTruth truth, double deviationDn, double ditherDn = 0)
    {
        double half = ditherDn / Math.Sqrt(2);
        IsoTruth noisy = truth with
        {
            ReadNoiseElectron = double.Hypot(truth.ReadNoiseElectron, double.Hypot(deviationDn, half) * truth.GainElectronPerDn),
            DsnuElectron = double.Hypot(truth.DsnuElectron, half * truth.GainElectronPerDn),
        };
        return WithShadows(noisy);
    }

    /// <summary>What is true where there is more fixed pattern: shadows have it.</summary>
    /// <param name="truth">What is true without.</param>
    /// <param name="deviationDn">Its standard deviation without light, in DN.</param>
    /// <param name="relative">Its standard deviation as a share of the light.</param>
    public static IsoTruth WithPattern(IsoTruth truth, double deviationDn, double relative = 0) => WithShadows(truth with
    {
        DsnuElectron = double.Hypot(truth.DsnuElectron, deviationDn * truth.GainElectronPerDn),
        PrnuPercent = double.Hypot(truth.PrnuPercent, 100 * relative),
    });

    private static IsoTruth WithShadows(IsoTruth truth) => truth with
    {
        BelowEv = truth.BelowEv.ToDictionary(b => b.Key, b => BelowEv(truth, double.Parse(b.Key.AsSpan("snr".Length), CultureInfo.InvariantCulture), 1)),
    };

    /// <summary>Stops below middle grey at which total SNR is a criterion, by halving.</summary>
    private static double BelowEv(IsoTruth truth, double snr, double stepDn)
    {
        double rounding = stepDn * stepDn * truth.GainElectronPerDn * truth.GainElectronPerDn / 12;
        double dark = (truth.ReadNoiseElectron * truth.ReadNoiseElectron) + (truth.DsnuElectron * truth.DsnuElectron) + rounding;
        double grey = truth.MiddleGreyDn!.Value * truth.GainElectronPerDn;
        double low = grey * 1e-9;
        double high = truth.SaturationElectron;
        for (int i = 0; i < 100; i++)
        {
            double light = Math.Sqrt(low * high);
            double pattern = 0.01 * truth.PrnuPercent * light;
            (low, high) = light / Math.Sqrt(dark + light + (pattern * pattern)) < snr ? (light, high) : (low, light);
        }

        return Math.Log2(grey / low);
    }
}
