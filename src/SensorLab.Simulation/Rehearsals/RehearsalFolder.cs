using System.Text.RegularExpressions;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>Where a rehearsal goes: written aside, put in place when it is whole, never over anything else.</summary>
internal sealed partial class RehearsalFolder
{
    private readonly string _folder;
    private readonly string _truthFile;
    private readonly string _replaced;

    /// <summary>Names the places.</summary>
    public RehearsalFolder(string folder)
    {
        _folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        _truthFile = _folder + ".truth.json";
        string parent = Path.GetDirectoryName(_folder) ?? throw new RehearsalFolderException($"{folder} is no place for a rehearsal: name a folder below it.");
        string name = Path.GetFileName(_folder);
        Staging = Path.Combine(parent, $".{name}.rehearsing");
        _replaced = Path.Combine(parent, $".{name}.replaced");
    }

    /// <summary>The folder to write into.</summary>
    public string Staging { get; }

    /// <summary>Returns when the place is free or holds a rehearsal.</summary>
    /// <exception cref="RehearsalFolderException">It holds something else.</exception>
    public void DemandFree()
    {
        if (File.Exists(_folder))
        {
            throw new RehearsalFolderException($"{_folder} is a file: name another folder.");
        }

        if (Directory.Exists(_folder) && !IsEmpty() && !IsRehearsal())
        {
            throw new RehearsalFolderException($"{_folder} holds files that are no rehearsal: name another folder, or empty this one.");
        }

        Clear();
        Directory.CreateDirectory(Staging);
    }

    /// <summary>Puts the finished rehearsal and its truth in place.</summary>
    public void Publish(ReadOnlySpan<byte> truth)
    {
        if (Directory.Exists(_folder))
        {
            Directory.Move(_folder, _replaced);
        }

        Directory.Move(Staging, _folder);
        WholeFile.Write(_truthFile, truth);
    }

    /// <summary>Removes what is not the finished rehearsal.</summary>
    public void Clear()
    {
        foreach (string folder in new[] { Staging, _replaced })
        {
            if (Directory.Exists(folder))
            {
                Directory.Delete(folder, recursive: true);
            }
        }
    }

    [GeneratedRegex(@"^(P[0-9]{4,}\.dng|frames\.csv)$", RegexOptions.CultureInvariant)]
    private static partial Regex OwnName();

    private bool IsEmpty() => !Directory.EnumerateFileSystemEntries(_folder).Any();

    private bool IsRehearsal() =>
        File.Exists(_truthFile)
        && Directory.EnumerateFiles(_folder, "*", SearchOption.AllDirectories).All(file => OwnName().IsMatch(Path.GetFileName(file)));
}
