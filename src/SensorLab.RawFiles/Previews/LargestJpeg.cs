namespace SensorLab.RawFiles.Previews;

/// <summary>Keeps the JPEG with the most pixels of those offered, one at a time in memory.</summary>
internal sealed class LargestJpeg
{
    /// <summary>No camera's preview is longer.</summary>
    public const int LongestBytes = 64 << 20;

    private long _area;

    /// <summary>The largest so far; null before the first.</summary>
    public byte[]? Jpeg { get; private set; }

    /// <summary>Takes a JPEG if it is larger than the one held.</summary>
    /// <param name="size">Its size; null for what is no JPEG.</param>
    /// <param name="load">Loads it.</param>
    public void Offer(JpegSize? size, Func<byte[]> load)
    {
        if (size is JpegSize known && known.Area > _area)
        {
            Jpeg = load();
            _area = known.Area;
        }
    }
}
