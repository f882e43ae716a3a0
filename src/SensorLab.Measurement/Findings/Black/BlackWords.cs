using System.Globalization;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>What black rests on where long dark frames are brighter than short ones.</summary>
internal static class BlackWords
{
    /// <summary>Share of the rise that black may hold where it was taken from the short frames alone.</summary>
    private const double SmallestShare = 0.1;

    public static string Of(IsoEvidence evidence, DarkRise rise)
    {
        int green = evidence.Greens[0];
        double held = evidence.BlackDn(green) - rise.Shortest.Record.Channels[green].MeanDn;
        return held < SmallestShare * rise.TotalDn
            ? "Compensated: black is that of the short dark frames, the long ones count as dim light."
            : string.Create(CultureInfo.InvariantCulture, $"Not compensated: black also moves between frames of one exposure, hence it is the mean of all and {held:F2} DN too high for short exposures.");
    }
}
