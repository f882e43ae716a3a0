using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Shelf.Documents;

namespace SensorLab.Shelf;

/// <summary>A profile's document as it is, read and found sound.</summary>
public sealed class ShelfDocument
{
    private ShelfDocument(ReadOnlyMemory<byte> bytes, SensorProfile profile) => (Bytes, Profile, Key) = (bytes, profile, ProfileKey.Of(bytes.Span));

    /// <summary>The document, to the byte.</summary>
    public ReadOnlyMemory<byte> Bytes { get; }

    /// <summary>What it says.</summary>
    public SensorProfile Profile { get; }

    /// <summary>What it is told by on every shelf: SHA-256 of the document without the white space between JSON's signs, 64 hexadecimal digits.</summary>
    public string Key { get; }

    /// <summary>Reads a profile's file.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="ProfileFormatException">It is no sound profile.</exception>
    /// <exception cref="IOException">It is missing, too large, or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It is a folder, or may not be read.</exception>
    public static ShelfDocument ReadFile(string path) => Of(PlainFile.ReadAllBytes(path, SensorProfileReader.SizeLimitBytes));

    /// <summary>A document out of a profile that came without one, as from a bundle.</summary>
    /// <param name="profile">The profile.</param>
    /// <exception cref="ProfileFormatException">It holds what no profile can.</exception>
    public static ShelfDocument Of(SensorProfile profile)
    {
        using var document = new MemoryStream();
        SensorProfileWriter.Write(profile, document);

        // As the document says it: half of a sign is written as U+FFFD.
        return Of(document.ToArray());
    }

    /// <summary>A document.</summary>
    /// <param name="bytes">Its bytes, which are not copied.</param>
    /// <exception cref="ProfileFormatException">It is no sound profile.</exception>
    public static ShelfDocument Of(byte[] bytes) => new(bytes, SensorProfileReader.Read(bytes.AsMemory()));
}
