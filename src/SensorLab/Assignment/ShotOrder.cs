namespace SensorLab.Assignment;

/// <summary>The order in which a card's frames were taken: by capture time, within a second by the card's own count.</summary>
internal sealed class ShotOrder : IComparer<SampledFrame>
{
    /// <summary>A count that falls by more than this within a second has begun anew.</summary>
    private const long HalfOfCount = 5000;

    public static ShotOrder Taken { get; } = new();

    public int Compare(SampledFrame? x, SampledFrame? y)
    {
        if (x is null || y is null)
        {
            return Comparer<bool>.Default.Compare(x is not null, y is not null);
        }

        int byTime = Nullable.Compare(x.Raw.Metadata.CaptureTime, y.Raw.Metadata.CaptureTime);
        if (byTime != 0)
        {
            return byTime;
        }

        // Folders of a card count upwards, too.
        int byFolder = string.CompareOrdinal(Path.GetDirectoryName(x.File), Path.GetDirectoryName(y.File));
        if (byFolder != 0)
        {
            return byFolder;
        }

        long apart = CountOf(x.File) - CountOf(y.File);
        int byCount = Math.Sign(Math.Abs(apart) > HalfOfCount ? -apart : apart);
        return byCount != 0 ? byCount : string.CompareOrdinal(x.File, y.File);
    }

    // The digits at the end of a name; as many as a camera counts with.
    private static long CountOf(string file)
    {
        string name = Path.GetFileNameWithoutExtension(file);
        int start = name.Length;
        while (start > 0 && name.Length - start < 5 && char.IsAsciiDigit(name[start - 1]))
        {
            start--;
        }

        return start < name.Length ? long.Parse(name.AsSpan(start), System.Globalization.CultureInfo.InvariantCulture) : 0;
    }
}
