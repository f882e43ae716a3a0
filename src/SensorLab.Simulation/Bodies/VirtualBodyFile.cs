using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using SensorLab.Files;
using SensorLab.Frames;

namespace SensorLab.Simulation.Bodies;

/// <summary>Reads and writes body files: a <see cref="VirtualBody"/> as JSON.</summary>
/// <remarks>
/// A body file is one JSON object with the properties of <see cref="VirtualBody"/> in camelCase, each optional; what is
/// left out is the LM-2's. <c>isoSettings</c> is a list of objects with <c>iso</c>, <c>gainElectronPerDn</c>,
/// <c>readNoiseElectron</c>, <c>middleGreyElectron</c> and optionally <c>fullWellElectron</c> and
/// <c>digitalFactor</c>; <c>shutter</c> has
/// <c>fastestSeconds</c>, <c>slowestSeconds</c>, <c>stepsPerStop</c>; <c>shooting</c> has <c>framesPerLevel</c>,
/// <c>darkFrames</c>, <c>meterReadings</c>, <c>framesPerReading</c>, <c>meterStepEv</c>, <c>levelsPastSaturation</c>,
/// <c>apertureFNumber</c>; <c>channelSensitivity</c> has one number a channel (<c>r</c>, <c>g1</c>, <c>g2</c>, <c>b</c>,
/// <c>y</c>); <c>look</c> has <c>name</c>, <c>clipEv</c>, <c>shadowEndEv</c>, <c>middleGreyCode</c>, or is null, and <c>furtherLooks</c> is a
/// list of such objects. A property that is not known is an error.
/// </remarks>
public static class VirtualBodyFile
{
    // A body of 64 ISOs with all its words takes a hundredth.
    private const int SizeLimitBytes = 1024 * 1024;

    private static readonly string[] PlaceSeparators = [" Path:", " LineNumber:"];

    private static readonly JsonDocumentOptions Leniency = new()
    {
        AllowTrailingCommas = true,
        CommentHandling = JsonCommentHandling.Skip,
        AllowDuplicateProperties = false,
    };

    /// <summary>Reads a body file.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The body, checked.</returns>
    /// <exception cref="MalformedFileException">
    /// The file is not JSON, has a property that is not known, lacks a required one, or has a value out of its domain;
    /// the message names the property.
    /// </exception>
    /// <exception cref="IOException">The file could not be read.</exception>
    public static VirtualBody Read(string path) => Parse(Encoding.UTF8.GetString(PlainFile.ReadAllBytes(path, SizeLimitBytes)).TrimStart('\uFEFF'));

    /// <summary>Reads a body from the text of a body file.</summary>
    /// <param name="json">The text.</param>
    /// <returns>The body, checked.</returns>
    /// <exception cref="MalformedFileException">As for <see cref="Read"/>.</exception>
    public static VirtualBody Parse(string json)
    {
        VirtualBody body;
        try
        {
            JsonObject document = JsonNode.Parse(json, documentOptions: Leniency) as JsonObject
                ?? throw new MalformedFileException("The body file is not right at $: there is no object.");
            BodyDefaults.Complete(document);
            body = document.Deserialize(BodyJson.Default.VirtualBody)!;
        }
        catch (JsonException error)
        {
            string place = error.Path ?? (error.LineNumber is { } line ? $"$, line {line + 1}" : "$");
            throw new MalformedFileException($"The body file is not right at {place}: {InWords(WithoutPlace(error.Message))}", error);
        }

        VirtualBodyCheck.Demand(body);
        return body;
    }

    /// <summary>The text of a body file.</summary>
    /// <param name="body">The body.</param>
    public static string ToText(VirtualBody body) => JsonSerializer.Serialize(body, BodyJson.Default.VirtualBody);

    /// <summary>The parser speaks of its own types: what is wrong, for whoever wrote the file.</summary>
    private static string InWords(string message)
    {
        string[] quoted = message.Split('\'');
        return message.Contains("could not be mapped", StringComparison.Ordinal) && quoted.Length > 1 ? $"a body has no property \"{quoted[1]}\". The README of the simulator lists those it has."
            : message.Contains("missing required", StringComparison.Ordinal) ? $"it lacks {string.Join(", ", quoted.Where((_, i) => i % 2 == 1 && !quoted[i].Contains('.', StringComparison.Ordinal)).Select(n => $"\"{n}\""))}."
            : message.Contains("could not be converted", StringComparison.Ordinal) ? "the value is of another kind than this property has (a number, a text, a list or an object): see the README of the simulator."
            : message;
    }

    // The parser appends where it was, in words of its own.
    private static string WithoutPlace(string message) => PlaceSeparators.Aggregate(message, static (text, place) => text.Split(place)[0]);
}
