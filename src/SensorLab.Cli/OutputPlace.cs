using SensorLab.Files;

namespace SensorLab.Cli;

/// <summary>Tries out where results will go before the long work begins.</summary>
internal static class OutputPlace
{
    /// <summary>Requires that a file can be written.</summary>
    /// <param name="path">The file; it may exist, and is not touched.</param>
    /// <param name="inputs">What the command reads.</param>
    /// <exception cref="OutputIsInputException">It is one of the inputs, links followed.</exception>
    /// <exception cref="IOException">Its folder is missing or is a file, or the path is a device, or its name is too long.</exception>
    /// <exception cref="UnauthorizedAccessException">It is a folder, or its folder may not be written.</exception>
    public static void RequireFile(string path, InputFiles inputs)
    {
        string target = WholeOutput.TargetOf(path);
        inputs.RequireApart(path);
        RequireFolderOf(target);
    }

    /// <summary>Requires that a folder can be made, or written when it is there.</summary>
    /// <param name="path">The folder.</param>
    /// <exception cref="IOException">It is a file, or the folder above is missing.</exception>
    /// <exception cref="UnauthorizedAccessException">It, or the folder above, may not be written.</exception>
    public static void RequireFolder(string path)
    {
        string folder = Path.TrimEndingDirectorySeparator(path);
        if (File.Exists(folder))
        {
            throw new IOException($"{path} is a file: name a folder to write into.");
        }

        RequireFolderOf(folder);
        if (Directory.Exists(folder))
        {
            TryOut(folder, path);
        }
    }

    private static void RequireFolderOf(string path)
    {
        string full = Path.GetFullPath(path);
        string folder = Path.GetDirectoryName(full) ?? full;
        if (!Directory.Exists(folder))
        {
            throw new IOException($"{path} cannot be written: there is no folder {folder}.");
        }

        TryOut(folder, path);
    }

    private static void TryOut(string folder, string path)
    {
        string probe = Path.Combine(folder, $".sensorlab-{Path.GetRandomFileName()}");
        try
        {
            using var file = new FileStream(probe, FileMode.CreateNew, FileAccess.Write, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose);
        }
        catch (UnauthorizedAccessException e)
        {
            throw new UnauthorizedAccessException($"{path} cannot be written: the folder {folder} may not be written to.", e);
        }
        catch (IOException e)
        {
            throw new IOException($"{path} cannot be written: {e.Message}", e);
        }
    }
}
