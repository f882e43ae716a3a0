using Directory = MetadataExtractor.Directory;

namespace SensorLab.RawFiles.Metadata;

/// <summary>One place where a field may stand.</summary>
/// <typeparam name="T">The field's type.</typeparam>
/// <param name="IsNote">Whether it stands in a maker's note and not in a standard directory.</param>
/// <param name="Tag">The tag's number.</param>
/// <param name="Witness">
/// For notes: a tag of that number and name belongs to the kind of note that is meant, since makers give
/// one number different meanings.
/// </param>
/// <param name="Read">Reads it from a directory that holds it; null where it says nothing.</param>
internal sealed record MetadataRow<T>(bool IsNote, int Tag, (int Tag, string Name) Witness, Func<Directory, int, T?> Read)
    where T : class
{
    /// <summary>A tag of TIFF, Exif or DNG.</summary>
    public static MetadataRow<T> Standard(int tag, Func<Directory, int, T?> read) => new(false, tag, (0, ""), read);

    /// <summary>A tag of a maker's note that is known by its number and name together.</summary>
    public static MetadataRow<T> Note(int tag, string name, Func<Directory, int, T?> read) => new(true, tag, (tag, name), read);

    /// <summary>A tag of the kind of note in which another tag has that number and name.</summary>
    public static MetadataRow<T> Beside((int Tag, string Name) witness, int tag, Func<Directory, int, T?> read) => new(true, tag, witness, read);

    /// <summary>The values in a file, in the order of its directories.</summary>
    /// <param name="tags">The file's directories.</param>
    public IEnumerable<T> Values(MetadataTags tags) => (IsNote ? tags.Notes.Where(d => d.GetTagName(Witness.Tag) == Witness.Name) : tags.Standard)
        .Where(d => d.ContainsTag(Tag))
        .Select(d => Read(d, Tag))
        .OfType<T>();
}
