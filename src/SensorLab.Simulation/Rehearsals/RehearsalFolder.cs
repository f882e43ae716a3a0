using System.Text.RegularExpressions;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>Where a rehearsal goes: a folder and the truth beside it, in the place of an earlier rehearsal and of nothing else.</summary>
internal sealed partial class RehearsalFolder
{
    /// <summary>Names the places.</summary>
    /// <exception cref="RehearsalFolderException">The folder has none above it.</exception>
    public RehearsalFolder(string folder)
    {
        Folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        TruthFile = Folder + ".truth.json";
        if (Path.GetDirectoryName(Folder) is null)
        {
            throw new RehearsalFolderException($"{folder} is no place for a rehearsal: name a folder below it.");
        }
    }

    /// <summary>The folder.</summary>
    public string Folder { get; }

    /// <summary>The file beside it.</summary>
    public string TruthFile { get; }

    /// <summary>Returns when the place is free or holds a rehearsal.</summary>
    /// <exception cref="RehearsalFolderException">It holds something else.</exception>
    public void DemandFree()
    {
        if (File.Exists(Folder))
        {
            throw new RehearsalFolderException($"{Folder} is a file: name another folder.");
        }

        if (Directory.Exists(Folder) && !IsEmpty() && !IsRehearsal())
        {
            throw new RehearsalFolderException($"{Folder} holds files that are no rehearsal: name another folder, or empty this one.");
        }
    }

    [GeneratedRegex(@"^(P[0-9]{4,}\.dng|frames\.csv)$", RegexOptions.CultureInvariant)]
    private static partial Regex OwnName();

    private bool IsEmpty() => !Directory.EnumerateFileSystemEntries(Folder).Any();

    private bool IsRehearsal() =>
        File.Exists(TruthFile)
        && Directory.EnumerateFiles(Folder, "*", SearchOption.AllDirectories).All(file => OwnName().IsMatch(Path.GetFileName(file)));
}
