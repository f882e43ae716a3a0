using System.Globalization;
using System.Text;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Publishing.Bundles;

/// <summary>The noise profile of one channel at one ISO; null where it was not measured.</summary>
/// <param name="Iso">The ISO setting.</param>
/// <param name="Channel">R, G1, G2, B or Y.</param>
/// <param name="Scale">The part that grows with the signal.</param>
/// <param name="Offset">The part that is there without light.</param>
internal sealed record DngNoiseEntry(int Iso, string Channel, double? Scale, double? Offset)
{
    /// <summary>All of a profile, by rising ISO.</summary>
    public static IReadOnlyList<DngNoiseEntry> AllOf(SensorProfile profile) =>
    [
        .. profile.IsoProfiles.OrderBy(iso => iso.Iso).SelectMany(iso => iso.Channels.Select(channel =>
            new DngNoiseEntry(iso.Iso, channel.Name, channel.DngNoiseProfile?.Scale, channel.DngNoiseProfile?.Offset))),
    ];

    /// <summary>Entries as CSV: RFC 4180 with line feeds, enough digits to read the same number back.</summary>
    public static byte[] Csv(IEnumerable<DngNoiseEntry> entries) => Encoding.UTF8.GetBytes(string.Concat(
        entries.Select(e => string.Create(CultureInfo.InvariantCulture, $"{e.Iso},{ForeignText.CsvField(e.Channel)},{e.Scale:R},{e.Offset:R}\n")).Prepend("iso,channel,scale,offset\n")));
}
