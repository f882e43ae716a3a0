using Microsoft.Win32.SafeHandles;

namespace SensorLab.Files;

/// <summary>Opens plain files for reading, and nothing else: a pipe would wait for ever, a device never ends.</summary>
/// <remarks>
/// What a path leads to is asked before it is opened, links followed. Where the system does not tell (see
/// <see cref="FileNode"/>), a file is plain that can be opened and read from any place. That tells devices and pipes of
/// Windows, whose opening does not wait; only a named pipe of a Unix that tells nothing would be waited for.
/// </remarks>
public static class PlainFile
{
    /// <summary>Opens a file for reading.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="IOException">It is not there, no plain file, or cannot be opened.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read, or is a folder.</exception>
    public static FileStream OpenRead(string path)
    {
        Require(path);
        FileStream file = Opened(path, File.OpenRead);
        if (!file.CanSeek)
        {
            file.Dispose();
            throw NotPlain(path);
        }

        return file;
    }

    /// <summary>Opens a file for reading by position.</summary>
    /// <inheritdoc cref="OpenRead"/>
    public static SafeFileHandle OpenHandle(string path)
    {
        Require(path);
        SafeFileHandle file = Opened(path, p => File.OpenHandle(p, FileMode.Open, FileAccess.Read, FileShare.Read, FileOptions.None));
        try
        {
            // Of what cannot be read from any place the length is not told.
            _ = RandomAccess.GetLength(file);
            return file;
        }
        catch (NotSupportedException e)
        {
            file.Dispose();
            throw NotPlain(path, e);
        }
    }

    /// <summary>Reads a file whole.</summary>
    /// <param name="path">The file.</param>
    /// <param name="limitBytes">The most that it may hold.</param>
    /// <exception cref="IOException">It is not there, no plain file, larger, or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read, or is a folder.</exception>
    public static byte[] ReadAllBytes(string path, int limitBytes)
    {
        using FileStream file = OpenRead(path);
        return ReadToEnd(file, limitBytes) ?? throw new IOException($"{path} is larger than {ByteCount.InWords(limitBytes)}, more than any file of its kind.");
    }

    /// <summary>Reads a stream to its end.</summary>
    /// <param name="source">The stream; left open.</param>
    /// <param name="limitBytes">The most that it may hold.</param>
    /// <returns>Its bytes; null where it holds more, of which no more than that is read.</returns>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static byte[]? ReadToEnd(Stream source, int limitBytes)
    {
        // As large as it says that it is, which may be wrong.
        long left = source.CanSeek ? Math.Clamp(source.Length - source.Position, 0, limitBytes) : 0;
        using var memory = new MemoryStream((int)left);
        byte[] buffer = new byte[81920];
        int count;
        while ((count = source.Read(buffer)) > 0)
        {
            if (memory.Length + count > limitBytes)
            {
                return null;
            }

            memory.Write(buffer, 0, count);
        }

        return memory.Length == memory.Capacity ? memory.GetBuffer() : memory.ToArray();
    }

    /// <summary>Requires that a path leads to a plain file, if to anything.</summary>
    /// <param name="path">The path; what is not there, and folders, are left to whoever opens it.</param>
    /// <exception cref="IOException">It leads to a pipe, a device or a socket.</exception>
    public static void Require(string path)
    {
        if (FileNode.Of(path) is { Kind: FileNodeKind.Pipe or FileNodeKind.Device or FileNodeKind.Socket } node)
        {
            throw new IOException($"{path} is a {node.Kind.ToString().ToLowerInvariant()}, and only plain files are read.");
        }
    }

    /// <summary>Whether a path leads to a plain file, links followed.</summary>
    /// <param name="path">The path.</param>
    public static bool IsPlain(string path) => File.Exists(path) && FileNode.Of(path) is null or { Kind: FileNodeKind.Plain };

    // The base library opens no device of Windows, and says so by an exception of its own.
    private static T Opened<T>(string path, Func<string, T> open)
    {
        try
        {
            return open(path);
        }
        catch (NotSupportedException e)
        {
            throw NotPlain(path, e);
        }
    }

    private static IOException NotPlain(string path, Exception? why = null) => new($"{path} is a device or a pipe, and only plain files are read.", why);
}
