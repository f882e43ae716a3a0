using System.Globalization;
using System.Text;
using SensorLab.Frames;

namespace SensorLab.Tests;

/// <summary>A folder on disk whose .dng files hold no picture: what is read of them is made up from their text.</summary>
/// <remarks>
/// The text is empty for a good frame, or "malformed", "unsuitable", "unsupported", "locked" for the failures that
/// opening a file can have.
/// </remarks>
internal sealed class MadeUpFolder : IDisposable
{
    private readonly Lock _lock = new();
    private int _openNow;

    public MadeUpFolder() => Directory.CreateDirectory(Path);

    public string Path { get; } = System.IO.Path.Combine(
        System.IO.Path.GetTempPath(),
        $"sensorlab-test-{Guid.NewGuid().ToString("N", CultureInfo.InvariantCulture)}");

    public int MostOpenAtOnce { get; private set; }

    public RawFileAccess Access => new(
        path => System.IO.Path.GetExtension(path).Equals(".dng", StringComparison.OrdinalIgnoreCase),
        Open,
        (path, _) => Open(path),
        (path, _) => throw new NotSupportedException($"{path} holds no picture to measure."),
        path => (ulong)new FileInfo(path).Length + 7);

    public MadeUpFolder Add(string file, string text = "")
    {
        string path = System.IO.Path.Combine(Path, file);
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
        File.WriteAllText(path, text);
        return this;
    }

    public MadeUpFolder AddTable(string text, Encoding? encoding = null)
    {
        File.WriteAllText(System.IO.Path.Combine(Path, "frames.csv"), text, encoding ?? new UTF8Encoding(false));
        return this;
    }

    public Task<FrameSetContents> ReadAsync(int jobs = 2) =>
        new FrameSetFolder(Access).ReadAsync(Path, jobs, TestContext.Current.CancellationToken);

    public void Dispose() => Directory.Delete(Path, recursive: true);

    private MadeUpReader Open(string path)
    {
        int open = Interlocked.Increment(ref _openNow);
        lock (_lock)
        {
            MostOpenAtOnce = Math.Max(MostOpenAtOnce, open);
        }

        Thread.Sleep(1);
        string text = File.ReadAllText(path);
        Interlocked.Decrement(ref _openNow);
        return text switch
        {
            "malformed" => throw new MalformedFileException("The strip table points behind the file's end."),
            "unsuitable" => throw new UnsupportedFileException("The data are lossy.", "Record uncompressed raw files.", isUnsuitable: true),
            "unsupported" => throw new UnsupportedFileException("This maker's format is not known", "Convert it to DNG.", isUnsuitable: false),
            "locked" => throw new UnauthorizedAccessException("Access is denied."),
            _ => new MadeUpReader(),
        };
    }

    private sealed class MadeUpReader : IMosaicReader
    {
        public RawFrame Frame { get; } = new()
        {
            Metadata = new FrameMetadata { Iso = 100, ExposureSeconds = 0.01, ApertureFNumber = 5.6, Look = "neutral" },
            Layout = new MosaicLayout
            {
                WidthPixels = 4,
                HeightPixels = 4,
                ActiveArea = new PixelRectangle(0, 0, 4, 4),
                ColourFilterArray = ColourFilterArray.Rggb,
                BitDepth = 14,
            },
        };

        public int PreferredRows => 4;

        public void ReadRows(Span<ushort> rows) => rows.Clear();

        public void Dispose()
        {
        }
    }
}
