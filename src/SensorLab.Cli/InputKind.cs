using System.Text.Json;
using SensorLab.Files;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.RawFiles;

namespace SensorLab.Cli;

/// <summary>What a file is by its own first bytes, in words: for telling what was given where something else is wanted.</summary>
internal static class InputKind
{
    private const int HeadBytes = 4096;

    /// <summary>A sensor profile.</summary>
    public const string Profile = "a sensor profile";

    /// <summary>A bundle or another archive.</summary>
    public const string Archive = "a bundle or another zip archive";

    /// <summary>A plan.</summary>
    public const string Plan = "a shot list (plan.json)";

    /// <summary>A raw frame.</summary>
    public const string Frame = "one raw frame";

    private const string Folder = "a folder";

    /// <summary>What it is.</summary>
    /// <param name="path">The file or folder.</param>
    /// <returns>Null where it is missing, or nothing that is known.</returns>
    public static string? Of(string path)
    {
        if (Directory.Exists(path))
        {
            return Folder;
        }

        if (!PlainFile.IsPlain(path))
        {
            return null;
        }

        if (RawFileOpener.IsRawFile(path))
        {
            return Frame;
        }

        using FileStream file = PlainFile.OpenRead(path);
        byte[] bytes = new byte[HeadBytes];
        ReadOnlySpan<byte> head = bytes.AsSpan(0, file.ReadAtLeast(bytes, HeadBytes, throwOnEndOfStream: false));
        return head switch
        {
            [(byte)'P', (byte)'K', 3 or 5, 4 or 6, ..] => Archive,
            [0xFF, 0xD8, 0xFF, ..] => "a JPEG picture",
            [0x89, (byte)'P', (byte)'N', (byte)'G', ..] => "a PNG picture",
            [(byte)'I', (byte)'I', ..] or [(byte)'M', (byte)'M', ..] => Frame,
            [(byte)'%', (byte)'P', (byte)'D', (byte)'F', ..] => "a PDF document",
            _ when head.StartsWith("-----BEGIN "u8) => "a key",
            _ when head.TrimStart(" \r\n\t\uFEFF"u8).StartsWith("<"u8) => "a web page",
            _ when FormatOf(head) is { } format => KindOf(format),
            _ => null,
        };
    }

    /// <summary>A sentence that says what was given in place of a sensor profile, and what is wanted.</summary>
    /// <param name="path">What was given.</param>
    /// <returns>Null where it is a profile, or nothing that is known.</returns>
    public static (string Given, string Remedy)? InsteadOfProfile(string path) => Of(path) is not { } kind || kind is Profile or Archive
        ? null
        : ($"{path} is no sensor profile but {kind}.", kind switch
        {
            Folder or Frame => "Measure the folder of frames first: sensorlab characterise FRAMES --out PROFILE.json.",
            Plan => "Shoot it, measure the frames with characterise, and name the profile.",
            _ => "Name the PROFILE.json that characterise wrote, or a bundle.",
        });

    private static string? FormatOf(ReadOnlySpan<byte> head)
    {
        // Ours begin with their format; a document that is cut short is read as far as it goes.
        var reader = new Utf8JsonReader(head.TrimStart("\uFEFF"u8), isFinalBlock: false, default);
        try
        {
            while (reader.Read())
            {
                if (reader.TokenType == JsonTokenType.PropertyName && reader.CurrentDepth == 1 && reader.ValueTextEquals("format"u8))
                {
                    return reader.Read() && reader.TokenType == JsonTokenType.String ? reader.GetString() : string.Empty;
                }
            }
        }
        catch (JsonException)
        {
            return null;
        }

        return reader.TokenType == JsonTokenType.None ? null : string.Empty;
    }

    private static string KindOf(string format) => format switch
    {
        SensorProfile.FormatName => Profile,
        ShotPlanDocument.FormatName => Plan,
        _ => "a JSON document of another kind",
    };
}
