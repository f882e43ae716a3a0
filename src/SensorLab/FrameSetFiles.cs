namespace SensorLab;

/// <summary>The files of a frame set's folder, before anything of them is read.</summary>
public static class FrameSetFiles
{
    /// <summary>Every file below the folder, links to folders followed, whether it will be read as a frame or not.</summary>
    /// <param name="folder">The folder.</param>
    /// <returns>Paths; none where there is no such folder.</returns>
    /// <exception cref="IOException">The folder cannot be listed.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be listed.</exception>
    public static IEnumerable<string> Of(string folder) => Directory.Exists(folder)
        ? FolderListing.FilesBelow(Path.GetFullPath(folder), CancellationToken.None).Select(file => Path.Combine(folder, file))
        : [];

    /// <summary>Whether a folder of this name gives the frames in it a role.</summary>
    /// <param name="name">The folder's name; case does not count.</param>
    public static bool IsRoleFolder(string name) => RoleWord.Read(name) is not null;
}
