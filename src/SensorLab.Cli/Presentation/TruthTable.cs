using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>Measured figures beside the truth of a rehearsal, in 80 columns; green where channels differ.</summary>
internal static class TruthTable
{
    private static readonly (string Title, string Name, Func<IsoProfile, Figure?> Measured)[] Rows =
    [
        ("clips, EV from grey", "aboveEv", iso => iso.Latitude.AboveEv),
        ("SNR 40, EV from grey", "snr40", iso => BelowOf(iso, 40)),
        ("SNR 10, EV from grey", "snr10", iso => BelowOf(iso, 10)),
        ("gain, electrons/DN", "gainElectronPerDn", iso => GreenOf(iso)?.GainElectronPerDn),
        ("read noise, electrons", "readNoiseElectron", iso => GreenOf(iso)?.ReadNoiseElectron),
        ("saturation, DN", "saturationDn", iso => GreenOf(iso)?.SaturationDn),
        ("black level, DN", "blackLevelDn", iso => GreenOf(iso)?.BlackLevelDn),
    ];

    /// <summary>The table.</summary>
    public static IReadOnlyList<string> Lines(SensorProfile profile, IReadOnlyList<TruthFile.IsoFigures> truth) =>
    [
        "   ISO  figure                      measured, 95 %               truth  inside",
        .. profile.IsoProfiles.SelectMany(iso => truth.Where(t => t.Iso == iso.Iso).SelectMany(t => IsoLines(iso, t))),
        "± is the sensor's noise alone. A 95 % interval misses the truth once in twenty.",
    ];

    private static IEnumerable<string> IsoLines(IsoProfile iso, TruthFile.IsoFigures truth)
    {
        string at = iso.Iso.ToString(CultureInfo.InvariantCulture);
        foreach ((string title, string name, Func<IsoProfile, Figure?> measured) in Rows)
        {
            if (truth.Figures.TryGetValue(name, out double value))
            {
                Figure? figure = measured(iso);
                double sign = name.StartsWith("snr", StringComparison.Ordinal) ? -1 : 1;
                yield return $"{at,6}  {title,-26}  {Describe(figure, sign),-22}  {Number(sign * value),10}  {Verdict(figure, value)}";
                at = string.Empty;
            }
        }
    }

    /// <summary>A figure with the sensor's own interval: the truth is told for the grey that this rehearsal's meter read.</summary>
    private static string Describe(Figure? figure, double sign) => figure switch
    {
        { AtLeast: { } bound } => $"at {(sign > 0 ? "least" : "most")} {Number(sign * bound)}",
        { AtMost: { } bound } => $"at {(sign > 0 ? "most" : "least")} {Number(sign * bound)}",
        { Value: { } value, Lower95: { } lower, Upper95: { } upper } => $"{Number(sign * value)} ±{Small(Math.Max(upper - value, value - lower))}",
        _ => StopText.Absent,
    };

    private static string Verdict(Figure? figure, double truth)
    {
        bool? isInside = figure switch
        {
            { AtLeast: { } bound } => truth >= bound,
            { AtMost: { } bound } => truth <= bound,
            { Lower95: { } lower, Upper95: { } upper } => truth >= lower && truth <= upper,
            _ => null,
        };
        return isInside switch { true => "yes", false => "no", null => StopText.Absent };
    }

    private static Figure? BelowOf(IsoProfile iso, double snr) => iso.Latitude.BelowEv.FirstOrDefault(e => e.Snr == snr)?.PerPixel;

    private static ChannelProfile? GreenOf(IsoProfile iso) => iso.Channels.FirstOrDefault(c => ChannelName.LeadsPool(c.Name));

    private static string Number(double number) =>
        number.ToString(Math.Abs(number) >= 1000 ? "F1" : "F3", CultureInfo.InvariantCulture);

    private static string Small(double number) => number.ToString(number >= 0.1 ? "F2" : "F4", CultureInfo.InvariantCulture);
}
