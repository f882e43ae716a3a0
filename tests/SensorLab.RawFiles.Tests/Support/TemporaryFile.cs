namespace SensorLab.RawFiles.Tests.Support;

/// <summary>A file that is gone when the test is.</summary>
internal sealed class TemporaryFile : IDisposable
{
    public TemporaryFile(byte[] content, string suffix = ".dng")
    {
        Path = System.IO.Path.Combine(System.IO.Path.GetTempPath(), $"sensorlab-{Guid.NewGuid():N}{suffix}");
        File.WriteAllBytes(Path, content);
    }

    public string Path { get; }

    public void Dispose() => File.Delete(Path);
}
