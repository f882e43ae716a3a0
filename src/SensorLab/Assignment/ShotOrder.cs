using System.Globalization;

namespace SensorLab.Assignment;

/// <summary>The order in which a card's frames were taken: by capture time, within a second by the card's own count.</summary>
internal static class ShotOrder
{
    /// <summary>Digits that cameras count with.</summary>
    private const int Digits = 5;

    /// <summary>A count with so large a gap has begun anew in it: after 9999 comes 1.</summary>
    private const long HalfOfCount = 5000;

    /// <summary>The frames in their order. Where one of them has no time, the count orders all.</summary>
    public static IReadOnlyList<SampledFrame> Of(IReadOnlyList<SampledFrame> frames)
    {
        // Folders of a card count upwards, too.
        SampledFrame[] counted = [.. frames.GroupBy(f => Path.GetDirectoryName(f.File)).OrderBy(g => g.Key, StringComparer.Ordinal).SelectMany(Counted)];
        return frames.All(f => f.Raw.Metadata.CaptureTime is not null) ? [.. counted.OrderBy(f => f.Raw.Metadata.CaptureTime)] : counted;
    }

    private static IEnumerable<SampledFrame> Counted(IEnumerable<SampledFrame> folder)
    {
        (SampledFrame Frame, long Count)[] rising = [.. folder.Select(f => (f, CountOf(f.File))).OrderBy(f => f.Item2).ThenBy(f => f.f.File, StringComparer.Ordinal)];
        int first = Enumerable.Range(1, rising.Length - 1).FirstOrDefault(i => rising[i].Count - rising[i - 1].Count > HalfOfCount);
        return rising[first..].Concat(rising[..first]).Select(f => f.Frame);
    }

    // The digits at the end of a name; as many as a camera counts with.
    private static long CountOf(string file)
    {
        string name = Path.GetFileNameWithoutExtension(file);
        int start = name.Length;
        while (start > 0 && name.Length - start < Digits && char.IsAsciiDigit(name[start - 1]))
        {
            start--;
        }

        return start < name.Length ? long.Parse(name.AsSpan(start), CultureInfo.InvariantCulture) : 0;
    }
}
