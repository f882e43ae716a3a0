using MetadataExtractor.Formats.Exif;
using Directory = MetadataExtractor.Directory;

namespace SensorLab.RawFiles.Metadata;

/// <summary>The directories of one file, standard ones and maker's notes apart.</summary>
internal sealed class MetadataTags
{
    private const int MakerTag = 271;
    private const string MakerTagName = "Make";

    /// <summary>Sorts the directories.</summary>
    /// <param name="directories">As read.</param>
    public MetadataTags(IEnumerable<Directory> directories)
    {
        ILookup<bool, Directory> isNote = directories.ToLookup(d => d.Name.Contains("Makernote", StringComparison.Ordinal) || d.GetType().Name.Contains("Makernote", StringComparison.Ordinal));
        Notes = [.. isNote[true]];
        Standard = [.. isNote[false].Where(d => d is ExifDirectoryBase || d.GetTagName(MakerTag) == MakerTagName)];
    }

    /// <summary>TIFF's, Exif's and DNG's directories.</summary>
    public IReadOnlyList<Directory> Standard { get; }

    /// <summary>The maker's notes.</summary>
    public IReadOnlyList<Directory> Notes { get; }

    /// <summary>The value of the first row that has one.</summary>
    /// <typeparam name="T">The field's type.</typeparam>
    /// <param name="rows">The field's rows, most trusted first.</param>
    /// <returns>The value; null where no row has one.</returns>
    public T? First<T>(IEnumerable<MetadataRow<T>> rows)
        where T : class =>
        rows.SelectMany(row => row.Values(this)).FirstOrDefault();

    /// <summary>As <see cref="First{T}"/>, for numbers.</summary>
    /// <param name="rows">The field's rows, most trusted first.</param>
    public double? FirstNumber(IEnumerable<MetadataRow<Boxed>> rows) => First(rows)?.Value;

    /// <summary>A number that a row gives.</summary>
    /// <param name="Value">The number.</param>
    internal sealed record Boxed(double Value);
}
