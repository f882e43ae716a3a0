using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>What follows from a body's properties at one ISO in closed form.</summary>
/// <param name="Body">The body.</param>
/// <param name="Setting">The ISO setting.</param>
internal readonly record struct SensorLaw(VirtualBody Body, VirtualIso Setting)
{
    // The 99.9th percentile of the standard normal: where the first 0.1 % of pixels lie.
    private const double FirstPerMille = 3.090232306167813;

    // Beyond it no code of a simulated frame lies.
    private const double FarDeviations = 9;

    /// <summary>The signal that more light does not move, in DN above black: the full well's or the converter's.</summary>
    public double SaturationDn
    {
        get
        {
            double well = Responded(Body.FullWellOf(Setting)) / Setting.GainElectronPerDn;
            return Math.Min(well, Body.LargestCodeDn - Body.BlackLevelDn);
        }
    }

    /// <summary>The same in e⁻.</summary>
    public double SaturationElectron => SaturationDn * Setting.GainElectronPerDn;

    /// <summary>Whether the converter's ceiling and not the full well limits.</summary>
    public bool ClipsAtLargestCode =>
        Responded(Body.FullWellOf(Setting)) / Setting.GainElectronPerDn > Body.LargestCodeDn - Body.BlackLevelDn;

    /// <summary>Expected electrons in a photosite at which its response saturates.</summary>
    public double SaturatingElectron => Unresponded(SaturationElectron);

    /// <summary>The response without a filter, or the two greens' mean: what meters and truths speak of.</summary>
    public double GreenSensitivity => Body.Filters.IsMonochrome
        ? Body.ChannelSensitivity.Y
        : 0.5 * (Body.ChannelSensitivity.G1 + Body.ChannelSensitivity.G2);

    /// <summary>The response of the channel that saturates first.</summary>
    public double LargestSensitivity
    {
        get
        {
            ChannelSensitivity channels = Body.ChannelSensitivity;
            return Body.Filters.Channels.Max(channels.Of);
        }
    }

    /// <summary>The response of the channel that saturates last.</summary>
    public double SmallestSensitivity
    {
        get
        {
            ChannelSensitivity channels = Body.ChannelSensitivity;
            return Body.Filters.Channels.Min(channels.Of);
        }
    }

    /// <summary>PRNU with its row and column parts, as a fraction.</summary>
    public double PrnuFraction =>
        0.01 * Math.Sqrt(Square(Body.PrnuPercent) + Square(Body.PrnuRowPercent) + Square(Body.PrnuColumnPercent));

    /// <summary>DSNU with its row and column parts, in e⁻.</summary>
    public double DsnuElectron =>
        Math.Sqrt(Square(Body.DsnuElectron) + Square(Body.DsnuRowElectron) + Square(Body.DsnuColumnElectron));

    /// <summary>Variance of one pixel that light does not bring, in e⁻²: read noise, DSNU, and a step's twelfth of rounding.</summary>
    public double DarkVariance => Square(Setting.ReadNoiseElectron) + Square(DsnuElectron) + RoundingVariance;

    private double RoundingVariance => Square(Setting.GainElectronPerDn * Setting.DigitalFactor) / 12;

    /// <summary>Expected electrons at which the total SNR of one pixel is a criterion.</summary>
    /// <param name="snr">The criterion, above 0.</param>
    /// <returns>The electrons, or null where the SNR never gets there before saturation.</returns>
    public double? ElectronAtSnr(double snr)
    {
        double n = snr * snr;
        double a = 1 - (n * Square(PrnuFraction));
        if (a <= 0)
        {
            return null;
        }

        double electrons = (n + Math.Sqrt((n * n) + (4 * a * n * DarkVariance))) / (2 * a);
        return electrons < SaturationElectron ? electrons : null;
    }

    /// <summary>The signal at which 0.1 % of the pixels stand at the largest code, in DN above black; null where they never do.</summary>
    public double? FirstClipDn()
    {
        if (!ClipsAtLargestCode)
        {
            return null;
        }

        double gain = Setting.GainElectronPerDn;
        double edge = (Body.LargestCodeDn - 0.5 - Body.BlackLevelDn) * gain;
        double electrons = edge;
        for (int i = 0; i < 60; i++)
        {
            double variance = DarkVariance - RoundingVariance + electrons + Square(PrnuFraction * electrons);
            electrons = edge - (FirstPerMille * Math.Sqrt(variance));
        }

        return electrons > 0 ? electrons / gain : null;
    }

    /// <summary>The mean code without light in DN: of a digital push that of the pushed codes, which are rounded to whole ones the same way each.</summary>
    /// <param name="blackDn">Black as the converter sees it, in DN.</param>
    public double DarkMeanDn(double blackDn)
    {
        double factor = Setting.DigitalFactor;
        if (factor == VirtualIso.NoDigitalFactor)
        {
            return blackDn;
        }

        // Parts of a code, each in one code as a whole, weighed by the normal density at their middle.
        const int Parts = 256;
        double deviation = Math.Sqrt(DarkVariance - RoundingVariance) / (Setting.GainElectronPerDn * factor);
        int reach = (int)Math.Ceiling(FarDeviations * deviation) + 1;
        double first = Math.Floor(blackDn) - reach - 0.5;
        (double sum, double weights) = (0, 0);
        for (int i = 0; i < Parts * ((2 * reach) + 2); i++)
        {
            double value = first + ((i + 0.5) / Parts);
            double weight = Math.Exp(-Square((value - blackDn) / deviation) / 2);
            sum += weight * Math.Floor(blackDn + ((Math.Floor(value + 0.5) - blackDn) * factor) + 0.5);
            weights += weight;
        }

        return sum / weights;
    }

    /// <summary>The electrons that the converter sees of those expected.</summary>
    public double Responded(double electron) =>
        electron * (1 - (0.01 * Body.CompressionPercent * electron / Body.FullWellOf(Setting)));

    private static double Square(double value) => value * value;

    private double Unresponded(double responded)
    {
        double c = 0.01 * Body.CompressionPercent / Body.FullWellOf(Setting);
        return c == 0 ? responded : (1 - Math.Sqrt(Math.Max(0, 1 - (4 * c * responded)))) / (2 * c);
    }
}
