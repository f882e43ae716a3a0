using System.Globalization;

namespace SensorLab.RawFiles.Metadata;

/// <summary>Reads when a frame was taken.</summary>
/// <remarks>Exif 2.32: DateTimeOriginal, OffsetTimeOriginal, SubSecTimeOriginal, then the tags for digitising and TIFF's DateTime.</remarks>
internal static class CaptureTimes
{
    private const int OffsetTime = 36880;
    private const int MostSubSecondDigits = 7;

    private static readonly (int Time, int Offset, int SubSecond)[] Tags =
        [(36867, 36881, 37521), (36868, 36882, 37522), (306, OffsetTime, 37520)];

    /// <summary>The first time that is one.</summary>
    /// <param name="tags">The file's directories.</param>
    /// <returns>With the offset that the file names, else as UTC; null where there is none.</returns>
    public static DateTimeOffset? Read(MetadataTags tags) => Tags
        .Select(t => Parse(Text(tags, t.Time), Text(tags, t.Offset) ?? Text(tags, OffsetTime), Text(tags, t.SubSecond)))
        .FirstOrDefault(time => time is not null);

    /// <summary>Puts the three texts together.</summary>
    /// <param name="time">"2026:03:02 10:00:01".</param>
    /// <param name="offset">"+01:00", or anything else for none.</param>
    /// <param name="subSecond">Decimal digits of a second, or anything else for none.</param>
    public static DateTimeOffset? Parse(string? time, string? offset, string? subSecond)
    {
        if (!DateTime.TryParseExact(time, "yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime local))
        {
            return null;
        }

        string digits = subSecond is not null && subSecond.All(char.IsAsciiDigit) ? subSecond[..Math.Min(subSecond.Length, MostSubSecondDigits)] : "";
        long ticks = digits.Length == 0 ? 0 : long.Parse(digits.PadRight(MostSubSecondDigits, '0'), CultureInfo.InvariantCulture);
        TimeSpan zone = Zone(offset);
        DateTime withFraction = local.AddTicks(ticks);
        bool isRepresentable = withFraction.Ticks - zone.Ticks >= DateTime.MinValue.Ticks && withFraction.Ticks - zone.Ticks <= DateTime.MaxValue.Ticks;
        return isRepresentable ? new DateTimeOffset(withFraction, zone) : null;
    }

    private static TimeSpan Zone(string? offset)
    {
        if (offset is null || offset.Length != 6 || offset[0] is not ('+' or '-') ||
            !TimeSpan.TryParseExact(offset[1..], @"hh\:mm", CultureInfo.InvariantCulture, out TimeSpan zone) || zone > TimeSpan.FromHours(14))
        {
            return TimeSpan.Zero;
        }

        return offset[0] == '-' ? -zone : zone;
    }

    private static string? Text(MetadataTags tags, int tag) => tags.First([MetadataRow<string>.Standard(tag, TagValues.Text)]);
}
