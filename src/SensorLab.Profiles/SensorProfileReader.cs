using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using SensorLab.Files;
using SensorLab.Profiles.Json;

namespace SensorLab.Profiles;

/// <summary>Reads sensor profiles; properties that this version does not know are ignored.</summary>
/// <example>
/// <code>
/// SensorProfile profile = SensorProfileReader.ReadFile("lm-2.json");
/// foreach (IsoProfile iso in profile.IsoProfiles)
/// {
///     Console.WriteLine($"ISO {iso.Iso}: {iso.Latitude.AboveEv?.Value:F2} EV above middle grey");
/// }
/// </code>
/// </example>
public static class SensorProfileReader
{
    /// <summary>The largest document read, in bytes: several times what 30 ISOs with all their histograms take.</summary>
    public const int SizeLimitBytes = 64 * 1024 * 1024;

    private const string TakeAnother = "Take a profile that sensorlab characterise wrote.";
    private const string NoJson = "The document is no JSON that a sensor profile could be: it is damaged, cut short, or something else.";

    private static ReadOnlySpan<byte> ByteOrderMark => [0xEF, 0xBB, 0xBF];

    /// <summary>Reads a profile from a stream, to its end.</summary>
    /// <param name="source">UTF-8 JSON, at most <see cref="SizeLimitBytes"/>; left open.</param>
    /// <returns>The profile; every figure in it is a full estimate or one bound, every number finite.</returns>
    /// <exception cref="ProfileFormatException">
    /// The document is no JSON, no sensor profile, of another major version, too large or too deep, or lacks what a
    /// profile must have.
    /// </exception>
    /// <exception cref="IOException">The stream cannot be read.</exception>
    public static SensorProfile Read(Stream source) => Read(PlainFile.ReadToEnd(source, SizeLimitBytes) ?? throw TooLarge());

    /// <summary>Reads a profile from its document, which is not copied.</summary>
    /// <param name="document">UTF-8 JSON, at most <see cref="SizeLimitBytes"/>.</param>
    /// <returns>The profile, as from <see cref="Read(Stream)"/>.</returns>
    /// <exception cref="ProfileFormatException">As from <see cref="Read(Stream)"/>.</exception>
    public static SensorProfile Read(ReadOnlyMemory<byte> document)
    {
        if (document.Length > SizeLimitBytes)
        {
            throw TooLarge();
        }

        if (document.Span.StartsWith(ByteOrderMark))
        {
            document = document[ByteOrderMark.Length..];
        }

        RequireFormat(document.Span);
        RequireDomains(document);
        SensorProfile profile = DeserializeAs(document.Span, ProfileJson.DirectSensorProfile) ?? Deserialize(document.Span);
        return ProfileCheck.FirstFault(profile) is { } fault ? throw Fault(fault) : profile;
    }

    /// <summary>
    /// Reads the figures of a profile that was read as a whole before and found sound: of its levels the metered ones alone,
    /// without frames and SNR curves.
    /// </summary>
    /// <param name="document">UTF-8 JSON, the same to the byte as then.</param>
    /// <exception cref="ProfileFormatException">As from <see cref="Read(Stream)"/>.</exception>
    internal static SensorProfile ReadFigures(ReadOnlyMemory<byte> document)
    {
        ReadOnlyMemory<byte> inner = document.Span.StartsWith(ByteOrderMark) ? document[ByteOrderMark.Length..] : document;
        RequireFormat(inner.Span);
        SensorProfile? profile = DeserializeAs(inner.Span, ProfileJson.FiguresOfSensorProfile);
        return profile is not null && ProfileCheck.FirstFault(profile) is null ? profile : Read(document);
    }

    /// <summary>Reads a profile from a file.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The profile, as from <see cref="Read(Stream)"/>.</returns>
    /// <exception cref="ProfileFormatException">As from <see cref="Read(Stream)"/>.</exception>
    /// <exception cref="IOException">The file is missing or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The path is a folder, or may not be read.</exception>
    public static SensorProfile ReadFile(string path)
    {
        using FileStream file = PlainFile.OpenRead(path);
        return Read(file);
    }

    private static ProfileFormatException TooLarge() =>
        new($"The document is larger than {SizeLimitBytes / (1024 * 1024)} MB, which no sensor profile is.", TakeAnother);

    private static ProfileFormatException Fault(DocumentFault fault) =>
        new($"In the profile {(fault.Path.Length == 0 ? "something" : fault.Path)} {fault.Reason}.", TakeAnother);

    private static void RequireDomains(ReadOnlyMemory<byte> document)
    {
        try
        {
            SensorProfileSchema.Domains.Require(document);
        }
        catch (DocumentException e)
        {
            throw new ProfileFormatException($"The profile is not sound. {e.Message}", TakeAnother, e);
        }
    }

    private static void RequireFormat(ReadOnlySpan<byte> document)
    {
        (string? format, string? version) = FormatOf(document);
        if (format != SensorProfile.FormatName)
        {
            throw new ProfileFormatException($"The document is no sensor profile: its format is not \"{SensorProfile.FormatName}\".", TakeAnother);
        }

        if (ProfileFormat.Fault(format, version) is { } fault)
        {
            throw new ProfileFormatException(
                $"The profile's {fault.Path} {fault.Reason}.",
                ProfileFormat.MajorOf(version) > ProfileFormat.Major ? "Update SensorLab, or have the profile written again by this version." : TakeAnother);
        }
    }

    private static (string? Format, string? Version) FormatOf(ReadOnlySpan<byte> document)
    {
        string? format = null;
        string? version = null;
        try
        {
            Utf8JsonReader reader = new(document, new JsonReaderOptions { MaxDepth = ProfileJson.DepthLimit });
            if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
            {
                return default;
            }

            // They stand at the beginning; a document that has one twice is refused with the rest.
            while ((format is null || version is null) && reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                bool isFormat = reader.ValueTextEquals("format"u8);
                bool isVersion = reader.ValueTextEquals("formatVersion"u8);
                reader.Read();
                string? text = (isFormat || isVersion) && reader.TokenType == JsonTokenType.String ? reader.GetString() : null;
                format = isFormat ? text : format;
                version = isVersion ? text : version;
                reader.Skip();
            }

            return (format, version);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            throw new ProfileFormatException(NoJson, TakeAnother, e);
        }
    }

    // Null where that way is not sure of it: the general one decides, and knows what to say.
    private static SensorProfile? DeserializeAs(ReadOnlySpan<byte> document, JsonTypeInfo<SensorProfile> metadata)
    {
        try
        {
            return JsonSerializer.Deserialize(document, metadata);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or FormatException)
        {
            return null;
        }
    }

    private static SensorProfile Deserialize(ReadOnlySpan<byte> document)
    {
        try
        {
            return JsonSerializer.Deserialize(document, ProfileJson.SensorProfile)
                ?? throw new ProfileFormatException("The document is empty.", TakeAnother);
        }
        catch (JsonException e)
        {
            string place = e.Path is { Length: > 2 } path ? path[2..] : "the document";
            throw new ProfileFormatException($"At {place} something that a sensor profile must have is missing or of the wrong kind.", TakeAnother, e);
        }
    }
}
