using SensorLab.Frames;

namespace SensorLab.RawFiles;

/// <summary>Refuses frames that by their own account were altered before they were recorded, whatever the container.</summary>
internal static class UnsuitableRecording
{
    /// <summary>Bodies subtract a dark frame from exposures of a second or more, none of them from shorter ones than this.</summary>
    private const double ShortestSubtractedSeconds = 1;

    /// <summary>Looks at what a frame says of itself.</summary>
    /// <param name="frame">The frame, complete.</param>
    /// <exception cref="UnsupportedFileException">
    /// Its compression is lossy by more than a companding curve, which <see cref="RawFrame.IsCompanded"/> tells apart; or
    /// noise reduction of long exposures was on, and it is one.
    /// </exception>
    public static void Refuse(RawFrame frame)
    {
        FrameMetadata metadata = frame.Metadata;
        if (metadata.Mode.Compression == "lossy" && !frame.IsCompanded)
        {
            throw new UnsupportedFileException(
                "Its data are compressed with loss, by its own account, which alters the noise.",
                "Record raw files uncompressed or with lossless compression.",
                isUnsuitable: true);
        }

        if (metadata.Mode.NoiseReduction == "on" && metadata.ExposureSeconds >= ShortestSubtractedSeconds)
        {
            throw new UnsupportedFileException(
                "Its noise was reduced, by its own account: long-exposure noise reduction was on, which subtracts a dark frame of its own.",
                "Switch long-exposure noise reduction off, and shoot this exposure again.",
                isUnsuitable: true);
        }
    }
}
