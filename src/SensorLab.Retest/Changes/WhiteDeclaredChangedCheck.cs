using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest.Changes;

/// <summary>white-declared-changed: the files declare another range from black to white, and converters believe the file.</summary>
internal sealed class WhiteDeclaredChangedCheck : IChangeCheck
{
    /// <summary>A thousandth of the range, 0.0014 EV: a white level that moves with black's last codes cuts nothing.</summary>
    private const double SmallestShare = 0.001;

    public IEnumerable<Change> Find(RetestEvidence evidence)
    {
        foreach ((IsoProfile before, IsoProfile after) in evidence.Isos)
        {
            (double? was, double? isNow) = (before.Channels[0].DeclaredWhiteDn, after.Channels[0].DeclaredWhiteDn);
            double moved = (isNow - BlackOf(after) ?? double.NaN) / (was - BlackOf(before) ?? double.NaN);
            if (Math.Abs(moved - 1) > SmallestShare)
            {
                yield return new Change(ChangeCode.WhiteDeclaredChanged, before.Iso, string.Create(
                    CultureInfo.InvariantCulture,
                    $"ISO {before.Iso}: the files declare white at {isNow:0.##} DN, and declared {was:0.##}. Converters believe the file: highlights are cut elsewhere, whatever the sensor does."));
            }
        }
    }

    private static double BlackOf(IsoProfile iso) => iso.Channels[0].DeclaredBlackDn ?? iso.Channels[0].BlackLevelDn?.Value ?? 0;
}
