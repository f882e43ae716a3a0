namespace SensorLab.Files;

/// <summary>One file, or one folder that is replaced whole.</summary>
/// <param name="Name">Its path in the group's folder, with forward slashes.</param>
/// <param name="Make">Makes it at a path that is free.</param>
internal sealed record OutputItem(string Name, Action<string> Make)
{
    /// <summary>Throws where what stands in its place may not be replaced; asked again just before the moves.</summary>
    public Action RequireFree { get; init; } = () => { };

    /// <summary>Whether what stands in its place is replaced.</summary>
    public bool IsReplacing { get; init; } = true;

    /// <summary>A file, flushed to the disk.</summary>
    public static OutputItem OfFile(string name, Action<Stream> write) => new(name, path => WriteTo(path, write, mode: null));

    /// <summary>A file that replaces none, with rights of its own, flushed to the disk.</summary>
    public static OutputItem OfNewFile(string name, Action<Stream> write, UnixFileMode mode) =>
        new(name, path => WriteTo(path, write, mode)) { IsReplacing = false };

    private static void WriteTo(string path, Action<Stream> write, UnixFileMode? mode)
    {
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = mode;
        }

        using var stream = new FileStream(path, options);
        write(stream);
        stream.Flush(flushToDisk: true);
    }
}
