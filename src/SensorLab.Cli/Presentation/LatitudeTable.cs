using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Reports;

namespace SensorLab.Cli.Presentation;

/// <summary>The result as text in 80 columns: where clipping is at each ISO, where shadows end, what is in doubt.</summary>
internal static class LatitudeTable
{
    private const double Clean = 40;

    private const double Textured = 10;

    private static readonly double[] Standard = [40, 20, 10, 4, 1];

    /// <summary>The table of a sensor profile.</summary>
    public static IReadOnlyList<string> Lines(SensorProfile profile) =>
    [
        .. BodyLine.Lines(profile.Body, profile.RecordingMode.Description),
        string.Empty,
        "        Clips at        Clean to EV,     Texture to EV,    Middle grey",
        "   ISO  EV from         from grey,       from grey,        green DN",
        "        grey            SNR 40           SNR 10            above black",
        .. profile.IsoProfiles.SelectMany(iso => IsoLines(profile, iso)),
        .. RefusedLines(profile),
        string.Empty,
        .. FooterOf(profile),
    ];

    private static IEnumerable<string> IsoLines(SensorProfile profile, IsoProfile iso)
    {
        IsoLatitude latitude = iso.Latitude;
        yield return string.Create(
            CultureInfo.InvariantCulture,
            $"{iso.Iso,6}  {StopText.FromGrey(latitude.AboveEv),-16}{Below(latitude, Clean),-17}{Below(latitude, Textured),-18}{GreyOf(iso)}");
        foreach (ShadowEnd end in latitude.BelowEv.Where(e => !Standard.Contains(e.Snr)))
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"        SNR {end.Snr:0.##}: {StopText.BelowGrey(end.PerPixel)} EV from grey");
        }

        foreach (ShadowEnd end in latitude.BelowEv.Where(e => e.AtDelivery is not null && e.Snr is Clean or Textured))
        {
            string size = profile.Delivery is { } d ? string.Create(CultureInfo.InvariantCulture, $"At {d.WidthPixels}x{d.HeightPixels}") : "At delivery";
            yield return string.Create(CultureInfo.InvariantCulture, $"        {size}, SNR {end.Snr:0.##}: {StopText.BelowGrey(end.AtDelivery)} EV from grey");
        }

        if (latitude.BandsEndEv is { } bands)
        {
            yield return $"        Bands show from {StopText.BelowGrey(bands)} EV from grey down";
        }

        IReadOnlyList<string> doubts = ProfileReview.DoubtfulCodes(profile, iso.Iso);
        if (doubts.Count > 0)
        {
            foreach (string line in WrappedText.Lines(string.Join(", ", doubts), "        In doubt: ", "          "))
            {
                yield return line;
            }
        }
    }

    private static IEnumerable<string> RefusedLines(SensorProfile profile) => profile.Findings
        .Where(f => f is { Severity: FindingSeverity.Refusal, Iso: not null })
        .GroupBy(f => f.Iso!.Value)
        .OrderBy(g => g.Key)
        .SelectMany(g => WrappedText.Lines(
            string.Join(", ", g.Select(f => f.Code).Distinct().Order(StringComparer.Ordinal)),
            string.Create(CultureInfo.InvariantCulture, $"{g.Key,6}  refused: "),
            "          "));

    private static IEnumerable<string> FooterOf(SensorProfile profile)
    {
        IReadOnlyList<string> doubts = ProfileReview.DoubtfulCodes(profile, null);
        if (doubts.Count > 0)
        {
            foreach (string line in WrappedText.Lines(string.Join(", ", doubts), "In doubt at every ISO: ", "  "))
            {
                yield return line;
            }
        }

        if (profile.IsoProfiles.SelectMany(i => i.Latitude.BelowEv).Any(e => e.PerPixel?.Value < 0))
        {
            yield return "A plus under Clean or Texture: that SNR is reached only above middle grey.";
        }

        bool hasBudgets = profile.IsoProfiles.Any(i => i.Latitude.AboveEv?.Budget is not null || i.Latitude.BelowEv.Any(e => e.PerPixel?.Budget is not null));
        yield return hasBudgets
            ? "± is half the 95 % interval that a set shot anew would respect: noise, meter,"
            : "± is half the 95 % interval of the sensor's noise in this set alone.";
        if (hasBudgets)
        {
            yield return "shutter, lamp, diaphragm, temperature; the report has the parts.";
        }

        yield return "Flare of lens and scene comes on top.";
        if (!hasBudgets && profile.MiddleGrey.MeterStandardUncertaintyEv is { } meter)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"On location the meter adds its own ±{Figure.NormalFactor95 * meter:F2} EV (95 %) to each.");
        }
        else if (profile.MiddleGrey.Method == GreyMethodName.Saturation)
        {
            yield return "Middle grey by ISO 12232's saturation-based speed, not by a meter.";
        }
    }

    private static string Below(IsoLatitude latitude, double snr) => StopText.BelowGrey(latitude.BelowEv.FirstOrDefault(e => e.Snr == snr)?.PerPixel);

    private static string GreyOf(IsoProfile iso)
    {
        ChannelProfile? green = iso.Channels.FirstOrDefault(c => ChannelName.LeadsPool(c.Name));
        return green?.MiddleGreyDn?.Value is { } grey ? grey.ToString("F0", CultureInfo.InvariantCulture) : StopText.Absent;
    }
}
