using SensorLab.Frames;

namespace SensorLab.RawFiles.Metadata;

internal static class MetadataReader
{
    public static FrameMetadata Read(string path) => new();
}
