using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using SensorLab.Files;

namespace SensorLab.Shelf;

/// <summary>Which frame sets gave which profiles of a shelf, so that a long work goes on where it ended.</summary>
/// <remarks>
/// A set is told by its place, its files' names, sizes and times and by how it is measured; another frame in it, or another
/// option, makes it another. Each has a note of its own, written whole when its profile is on the shelf, and a lock while it is measured:
/// any number of runs, on any number of machines that share the folder, take turns.
/// </remarks>
/// <param name="shelf">The shelf.</param>
public sealed class MeasuredSets(ProfileShelf shelf)
{
    private const string Measuring = "measuring-";
    private const int ShortMark = 16;

    // A run that ends lets go within it.
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(200);

    private readonly string _folder = Path.Combine(shelf.Folder, "measured");

    /// <summary>What a set is told by.</summary>
    /// <param name="folder">Its folder.</param>
    /// <param name="files">Its files' paths.</param>
    /// <param name="how">How it is measured, in any words that are the same for the same.</param>
    /// <returns>64 hexadecimal digits.</returns>
    /// <exception cref="IOException">A file cannot be looked at.</exception>
    public static string MarkOf(string folder, IEnumerable<string> files, string how)
    {
        var words = new StringBuilder(how).Append('\0').Append(Path.GetFullPath(folder)).Append('\0');
        foreach (string file in files.Order(StringComparer.Ordinal))
        {
            var found = new FileInfo(file);
            words.Append(CultureInfo.InvariantCulture, $"{Path.GetRelativePath(folder, file)}\0{found.Length}\0{found.LastWriteTimeUtc.Ticks}\0");
        }

        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(words.ToString())));
    }

    /// <summary>The profile that a set gave.</summary>
    /// <param name="mark">The set's mark.</param>
    /// <returns>The profile's key; null where the set was not measured, or its profile is no longer on the shelf.</returns>
    public string? ProfileOf(string mark)
    {
        string note = Path.Combine(_folder, mark);
        string key = File.Exists(note) ? File.ReadLines(note).FirstOrDefault() ?? string.Empty : string.Empty;
        return key.Length > 0 && File.Exists(shelf.PathOf(key)) ? key : null;
    }

    /// <summary>Takes a set to measure it.</summary>
    /// <param name="mark">The set's mark.</param>
    /// <returns>Held while it is measured; null where another run measures it.</returns>
    /// <exception cref="UnauthorizedAccessException">The shelf may not be written to.</exception>
    public IDisposable? Take(string mark)
    {
        Directory.CreateDirectory(_folder);
        string purpose = Measuring + mark[..ShortMark];
        try
        {
            return new FolderLock(_folder, purpose, Patience);
        }
        catch (IOException) when (FolderLock.IsHeld(_folder, purpose))
        {
            return null;
        }
    }

    /// <summary>Notes that a set was measured and its profile is on the shelf.</summary>
    /// <param name="mark">The set's mark.</param>
    /// <param name="key">The profile's key.</param>
    /// <param name="name">What the user calls the set.</param>
    /// <exception cref="IOException">The note cannot be written.</exception>
    public void Note(string mark, string key, string name)
    {
        Directory.CreateDirectory(_folder);
        byte[] note = Encoding.UTF8.GetBytes($"{key}\n{ForeignText.OneLine(name)}\n");
        WholeFile.Write(Path.Combine(_folder, mark), file => file.Write(note), CancellationToken.None);
    }
}
