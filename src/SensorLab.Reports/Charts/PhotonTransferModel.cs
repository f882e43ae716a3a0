using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>Temporal variance against mean signal at one ISO, with the profile's own model and the residuals against it, apart from its drawing.</summary>
/// <param name="Heading">The words that stand with it.</param>
/// <param name="Iso">The ISO setting.</param>
/// <param name="Signal">Mean signal above black in DN.</param>
/// <param name="Variance">Temporal variance in DN².</param>
/// <param name="Residual">Measured variance less the model's in standard uncertainties.</param>
/// <param name="Channels">The channels in the profile's order.</param>
internal sealed record PhotonTransferModel(
    ChartHeading Heading, int Iso, ChartAxis Signal, ChartAxis Variance, ChartAxis Residual, IReadOnlyList<PhotonTransferChannel> Channels)
{
    // Residuals of levels that the fit left out may be hundreds; the axis holds those that it used, and never less than this.
    private const double LeastResidual = 4;

    // Over a wider scale the ticks at two standard uncertainties would run into each other.
    private const double MostForFineTicks = 8;

    /// <summary>Whether there is nothing to draw.</summary>
    public bool IsEmpty => Channels.All(c => c.Points.Count == 0);

    /// <summary>Why levels were left out, each reason once.</summary>
    public IReadOnlyList<string> ReasonsLeftOut => [.. Channels.SelectMany(c => c.Points).Select(p => p.LeftOut).OfType<string>().Distinct()];

    /// <summary>Builds the model.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">One of its ISOs.</param>
    public static PhotonTransferModel From(SensorProfile profile, IsoProfile iso)
    {
        PhotonTransferChannel[] channels = [.. iso.Channels.Select(channel => PhotonTransferChannel.From(iso, channel))];
        PhotonTransferPoint[] points = [.. channels.SelectMany(c => c.Points)];
        double[] signals = [.. points.Where(p => !p.IsDark && p.SignalDn > 0).Select(p => p.SignalDn)];
        double[] variances = [.. FittedOrAll(points).Select(p => p.VarianceDn2).Where(v => v > 0)];
        double lowestSignal = signals.DefaultIfEmpty(1).Min();
        double lowestVariance = variances.DefaultIfEmpty(1).Min();
        double residual = Math.Ceiling(points.Where(p => p.UsedInFit).Select(p => Math.Abs(p.Residual ?? 0)).Append(LeastResidual).Max());
        return new PhotonTransferModel(
            Words(profile, iso, channels),
            iso.Iso,
            ChartAxis.Logarithmic("Mean signal above black", "DN", lowestSignal, Math.Max(signals.DefaultIfEmpty(10).Max(), 10 * lowestSignal)),
            ChartAxis.Logarithmic("Temporal variance", "DN²", lowestVariance, Math.Max(points.Select(p => p.VarianceDn2).DefaultIfEmpty(10).Max(), 10 * lowestVariance)),
            ResidualAxis(residual),
            channels);
    }

    private static ChartAxis ResidualAxis(double half) =>
        new("Residual", "standard uncertainties", AxisScale.Linear, -half, half,
            half <= MostForFineTicks
                ? [new AxisTick(-2, "−2"), new AxisTick(0, "0"), new AxisTick(2, "+2")]
                : [new AxisTick(-half, EvText.WholeStop(-half)), new AxisTick(0, "0"), new AxisTick(half, EvText.WholeStop(half))]);

    // A clipped level's variance collapses: it must not stretch the axis of those that count.
    private static PhotonTransferPoint[] FittedOrAll(PhotonTransferPoint[] points)
    {
        PhotonTransferPoint[] fitted = [.. points.Where(p => p.UsedInFit)];
        return fitted.Length > 0 ? fitted : points;
    }

    private static ChartHeading Words(SensorProfile profile, IsoProfile iso, PhotonTransferChannel[] channels)
    {
        (string Channel, PhotonTransferPoint Point)[] used =
            [.. channels.SelectMany(c => c.Points.Where(p => p.UsedInFit && p.Residual is not null).Select(p => (c.Name, p)))];
        string fit = used.Length == 0 ? "No model could be had: the findings say why." : FitWords(used);
        int leftOut = channels.SelectMany(c => c.Points).Count(p => !p.UsedInFit);
        string outWords = leftOut == 0 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $" {leftOut} {(leftOut == 1 ? "was" : "were")} left out.");
        string title = string.Create(CultureInfo.InvariantCulture, $"Photon transfer at ISO {iso.Iso}: variance against mean");
        string gains = string.Join(", ", channels.Select(c => $"{c.Name} {c.Gain}"));
        string sentence = fit + outWords;
        return new ChartHeading(title, ProfileText.Body(profile), sentence,
            $"Temporal variance against mean signal above black, both logarithmic, with the profile's own model and residuals a channel. Gain: {gains}. {sentence}");
    }

    private static string FitWords((string Channel, PhotonTransferPoint Point)[] used)
    {
        int within = used.Count(u => Math.Abs(u.Point.Residual!.Value) <= 2);
        (string channel, PhotonTransferPoint worst) = used.MaxBy(u => Math.Abs(u.Point.Residual!.Value));
        string where = worst.IsDark ? "in the dark" : $"at {ChartAxis.Plain(Math.Round(worst.SignalDn))} DN";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{within} of {used.Length} fitted points lie within two standard uncertainties of the profile's model (chance: about {Math.Round(0.954 * used.Length):0}); the furthest, {channel} {where}, is {Math.Abs(worst.Residual!.Value):0.0} away.");
    }
}
