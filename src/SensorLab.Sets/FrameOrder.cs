namespace SensorLab.Sets;

/// <summary>
/// The order in which frames were taken. Frames without a capture time, or with the same one, are ordered by their
/// pixels, so that neither renaming nor reordering the files changes a figure.
/// </summary>
internal sealed class FrameOrder : IComparer<SetFrame>
{
    public static FrameOrder Taken { get; } = new();

    public int Compare(SetFrame? x, SetFrame? y)
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

        int byPixels = x.ContentKey.CompareTo(y.ContentKey);

        // Frames of the same pixels are the same to every figure; their names only make the order total.
        return byPixels != 0 ? byPixels : string.CompareOrdinal(x.File, y.File);
    }
}
