using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>What the SNR chart shows for this body.</summary>
internal static class SnrSentence
{
    // A fixed pattern that costs less than this share of the SNR is not worth a word.
    private const double WorthSaying = 0.02;

    /// <summary>Computes the words.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">The ISO.</param>
    /// <param name="total">Total SNR of the model.</param>
    /// <param name="temporal">Temporal SNR of the model.</param>
    /// <param name="criteria">The criteria.</param>
    public static ChartHeading Heading(
        SensorProfile profile, IsoProfile iso, ChartSeries total, ChartSeries temporal, IReadOnlyList<CriterionLine> criteria)
    {
        string sentence = $"{ShadowEnd(criteria)} {MiddleGrey(total)} {FixedPattern(total, temporal)}".Trim();
        string crossings = string.Join(", ", criteria.Select(c => c.Words));
        string alternative =
            $"SNR of a single pixel, logarithmic, against exposure in EV with middle grey at 0, total and temporal. {sentence}" +
            (crossings.Length > 0 ? $" Shadow ends: {crossings}." : string.Empty);
        string title = string.Create(CultureInfo.InvariantCulture, $"Signal-to-noise ratio at ISO {iso.Iso}");
        return new ChartHeading(title, ProfileText.Body(profile), sentence, alternative);
    }

    private static string ShadowEnd(IReadOnlyList<CriterionLine> criteria) =>
        criteria.FirstOrDefault(c => c.Emphasised) switch
        {
            { Crossing: { } crossing } => $"Total SNR falls to 10 at {EvText.MarkInSentence(crossing)}.",
            { NeverReached: true } => "Total SNR never reaches 10.",
            _ => "No shadow end at SNR 10 was measured.",
        };

    private static string MiddleGrey(ChartSeries total)
    {
        for (int i = 1; i < total.Points.Count; i++)
        {
            (ChartPoint left, ChartPoint right) = (total.Points[i - 1], total.Points[i]);
            if (left.X <= 0 && right.X >= 0 && right.X > left.X)
            {
                double share = -left.X / (right.X - left.X);
                double snr = Math.Exp(((1 - share) * Math.Log(left.Y)) + (share * Math.Log(right.Y)));
                return string.Create(CultureInfo.InvariantCulture, $"At middle grey it is {(snr < 10 ? $"{snr:0.0}" : $"{snr:0}")}.");
            }
        }

        return string.Empty;
    }

    private static string FixedPattern(ChartSeries total, ChartSeries temporal)
    {
        if (total.Points.Count == 0 || temporal.Points.Count == 0 || total.Points[^1].X != temporal.Points[^1].X)
        {
            return string.Empty;
        }

        (ChartPoint with, ChartPoint without) = (total.Points[^1], temporal.Points[^1]);
        return with.Y > without.Y * (1 - WorthSaying)
            ? "Fixed pattern costs next to nothing, even in the highlights."
            : string.Create(
                CultureInfo.InvariantCulture,
                $"At {EvText.Signed(with.X, 1)} EV fixed pattern brings it from {without.Y:0} down to {with.Y:0}.");
    }
}
