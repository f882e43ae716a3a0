using System.Text;

namespace SensorLab.Files;

/// <summary>Where an output really goes: links are followed before it is judged.</summary>
internal static class OutputTarget
{
    private const int LongestNameBytes = 255;

    /// <summary>The full path that a path leads to; itself where it is no link.</summary>
    /// <exception cref="IOException">Links lead in a circle.</exception>
    public static string Followed(string path)
    {
        string full = Path.GetFullPath(path);
        return new FileInfo(full).LinkTarget is null ? full : File.ResolveLinkTarget(full, returnFinalTarget: true)!.FullName;
    }

    /// <summary>Where a file is to be put, links followed.</summary>
    /// <param name="path">The file; it may exist.</param>
    /// <exception cref="IOException">It leads to a device, a pipe or a socket; or its name is longer than a name can be.</exception>
    /// <exception cref="UnauthorizedAccessException">It is a folder.</exception>
    public static string OfFile(string path)
    {
        string target = Followed(path);
        if (Directory.Exists(target) || Path.EndsInDirectorySeparator(path))
        {
            throw new UnauthorizedAccessException($"{path} is a folder: name a file to write.");
        }

        if (IsOfTheSystem(Path.GetFullPath(path)) || IsOfTheSystem(target) || FileNode.Of(target) is { Kind: not FileNodeKind.Plain })
        {
            throw new IOException($"{path} is no file but a device or a pipe: name a file to write.");
        }

        RequireName(path, Path.GetFileName(target));
        return target;
    }

    /// <summary>Requires that a name can be one.</summary>
    /// <exception cref="IOException">It is too long.</exception>
    public static void RequireName(string path, string name)
    {
        if (Encoding.UTF8.GetByteCount(name) > LongestNameBytes)
        {
            throw new IOException($"{path} cannot be written: its name is longer than {LongestNameBytes} bytes.");
        }
    }

    // A file moved over a device would replace it, and as root succeed in it.
    private static bool IsOfTheSystem(string path) =>
        !OperatingSystem.IsWindows()
        && (path.StartsWith("/dev/", StringComparison.Ordinal) || path.StartsWith("/proc/", StringComparison.Ordinal))
        && !path.StartsWith("/dev/shm/", StringComparison.Ordinal);
}
