using System.Globalization;

namespace SensorLab.Planning.Retest.Changes;

/// <summary>white-declared-changed: the files declare another white level, and converters believe the file.</summary>
internal sealed class WhiteDeclaredChangedCheck : IChangeCheck
{
    public IEnumerable<Change> Find(RetestEvidence evidence) => evidence.Isos
        .Select(i => (i.Before.Iso, Before: i.Before.Channels[0].DeclaredWhiteDn, After: i.After.Channels[0].DeclaredWhiteDn))
        .Where(i => i.Before is not null && i.After is not null && i.Before != i.After)
        .Select(i => new Change(ChangeCode.WhiteDeclaredChanged, i.Iso, string.Create(
            CultureInfo.InvariantCulture,
            $"ISO {i.Iso}: the files declare white at {i.After:0.##} DN, and declared {i.Before:0.##}. Converters believe the file: highlights are cut elsewhere, whatever the sensor does.")));
}
