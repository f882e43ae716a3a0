using SensorLab.Shelf;

namespace SensorLab.Cli;

/// <summary>Where the shelf is: what the command line names, else the setting, else the user's data folder.</summary>
internal static class ShelfPlace
{
    /// <summary>The shelf.</summary>
    /// <param name="named">What the command line names; null where nothing.</param>
    /// <param name="workbench">Knows the settings and the user's folder.</param>
    /// <param name="isMade">Whether it may be made: what is only asked must be there, where it is named.</param>
    /// <exception cref="IOException">The shelf that is named is not there, or the system names no folder.</exception>
    public static ProfileShelf Of(string? named, Workbench workbench, bool isMade = false)
    {
        if ((named ?? Settings.Read(workbench.SettingsPath)["shelf"]) is { } folder)
        {
            return isMade || Directory.Exists(folder) ? new ProfileShelf(Path.GetFullPath(folder)) : throw new DirectoryNotFoundException(
                $"There is no shelf {folder}: sensorlab shelf add makes one.");
        }

        return workbench.ShelfFolder.Length > 0 ? new ProfileShelf(workbench.ShelfFolder) : throw new IOException(
            "The system names no folder for a user's data: set HOME or XDG_DATA_HOME, or name the shelf with --shelf.");
    }
}
