using System.Buffers;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Shelf.Documents;

/// <summary>The profiles' own files, which are the truth: one each, named by its key, put in place whole and never changed.</summary>
internal sealed class DocumentFolder(string shelf)
{
    private const string Suffix = ".json";
    private const int KeyDigits = 64;

    private static readonly SearchValues<char> Hexadecimal = SearchValues.Create("0123456789abcdef");

    private readonly string _folder = Path.Combine(shelf, "profiles");

    /// <summary>The keys of all profiles; none where the folder is missing. Other files are passed over.</summary>
    public IEnumerable<string> Keys() => !Directory.Exists(_folder) ? [] : Directory.EnumerateFiles(_folder, "*" + Suffix)
        .Select(path => Path.GetFileNameWithoutExtension(path))
        .Where(IsKey);

    /// <summary>Where a profile lies.</summary>
    /// <param name="key">Its key.</param>
    public string PathOf(string key) => Path.Combine(_folder, key + Suffix);

    /// <summary>Whether a profile is here.</summary>
    /// <param name="key">Its key.</param>
    public bool Holds(string key) => File.Exists(PathOf(key));

    /// <summary>Puts documents in place, together or not at all.</summary>
    /// <param name="documents">The documents.</param>
    /// <param name="cancellation">Heeded until the first is put in place.</param>
    /// <exception cref="IOException">They cannot be written: none of them is there.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be written to.</exception>
    public void Keep(IReadOnlyList<ShelfDocument> documents, CancellationToken cancellation)
    {
        Directory.CreateDirectory(shelf);
        new WholeOutput().WithFolder(_folder, documents.Select(d => (d.Key + Suffix, d.Bytes))).PutInPlace(cancellation);
    }

    /// <summary>Reads a profile, and requires that it is the one that was kept.</summary>
    /// <param name="key">Its key.</param>
    /// <exception cref="ProfileFormatException">It is damaged, or another one.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    public ShelfDocument Read(string key)
    {
        ShelfDocument document = ShelfDocument.ReadFile(PathOf(key));
        return document.Key == key ? document : throw Changed(key);
    }

    /// <summary>Reads a profile's figures, and requires that it is the one that was kept, and so found sound then.</summary>
    /// <param name="key">Its key.</param>
    /// <returns>The profile without frames, SNR curves and levels but the metered ones.</returns>
    /// <exception cref="ProfileFormatException">It is damaged, or another one.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    public SensorProfile ReadFigures(string key)
    {
        byte[] document = PlainFile.ReadAllBytes(PathOf(key), SensorProfileReader.SizeLimitBytes);
        return ProfileKey.Of(document) == key ? SensorProfileReader.ReadFigures(document) : throw Changed(key);
    }

    private ProfileFormatException Changed(string key) => new(
        $"{PathOf(key)} has been changed since it was kept: its content and its name do not agree.",
        "Take it off the shelf's folder, and add the profile again from where it came.");

    private static bool IsKey(string name) => name.Length == KeyDigits && !name.AsSpan().ContainsAnyExcept(Hexadecimal);
}
