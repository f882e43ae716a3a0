using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using SensorLab.Profiles;

namespace SensorLab.Shelf.Tests;

/// <summary>Documents of a large fleet, made as fast as they are read: figures of <see cref="SimulatedFleet"/>, levels drawn anew.</summary>
/// <param name="isos">How many ISOs a profile has.</param>
/// <param name="levels">How many levels an ISO has, of four channels each.</param>
internal sealed class FleetDocuments(int isos, int levels)
{
    /// <summary>The photon-transfer slope of the levels, within one part in fifty.</summary>
    public const double DnPerElectron = 0.3125;

    private static readonly string[] Channels = ["R", "G1", "G2", "B"];

    private readonly SimulatedFleet _fleet = new(isos, levels: 1);

    /// <summary>A document without white space.</summary>
    public byte[] Of(int body, int set, int? driftsFrom)
    {
        using var written = new MemoryStream();
        SensorProfileWriter.Write(_fleet.Profile(body, set, driftsFrom), written);
        JsonObject document = JsonNode.Parse(written.ToArray())!.AsObject();
        var random = new Random((body * 1000) + set + 500_000);
        foreach (JsonNode? iso in document["isoProfiles"]!.AsArray())
        {
            // A mark that the levels are put in place of: as text they are made in no time.
            iso!["levels"] = "LEVELS";
            iso["previews"] = new JsonArray();
        }

        string[] parts = document.ToJsonString(new JsonSerializerOptions { WriteIndented = false }).Split("\"LEVELS\"");
        var bytes = new ArrayBufferWriter<byte>(1 << 20);
        for (int i = 0; i < parts.Length; i++)
        {
            bytes.Write(Encoding.UTF8.GetBytes(parts[i]));
            if (i < parts.Length - 1)
            {
                WriteLevels(bytes, random);
            }
        }

        return bytes.WrittenSpan.ToArray();
    }

    private void WriteLevels(IBufferWriter<byte> target, Random random)
    {
        using var json = new Utf8JsonWriter(target);
        json.WriteStartArray();
        for (int level = 0; level < levels; level++)
        {
            json.WriteStartObject();
            json.WriteString("role", level == 0 ? "dark" : level == 1 ? "metered" : "bracket");
            json.WriteNumber("exposureSeconds", Math.Pow(2, (level - (levels / 2)) / 3.0) / 60);
            if (level > 0)
            {
                json.WriteNumber("ev", (level - (levels / 2)) / 3.0);
            }

            json.WriteNumber("frames", 2);
            json.WriteNumber("pixelsPerChannel", 240000);
            json.WriteStartArray("channels");
            foreach (string channel in Channels)
            {
                double signal = Math.Pow(2, level / 3.0) * (1 + (0.01 * random.NextDouble()));
                json.WriteStartObject();
                json.WriteString("name", channel);
                json.WriteNumber("meanDn", 512 + signal);
                json.WriteNumber("meanUncertaintyDn", 0.002 * (1 + random.NextDouble()));
                json.WriteNumber("temporalVarianceDn2", 1.5 + (DnPerElectron * signal * (1 + (0.01 * random.NextDouble()))));
                json.WriteNumber("fixedPatternVarianceDn2", 1e-4 * signal * signal);
                json.WriteNumber("clippedFraction", 0);
                json.WriteBoolean("usedInFit", level > 1);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>The set from which a body drifts; null where it does not: every fiftieth does.</summary>
    public static int? DriftOf(int body) => body % 50 == 7 ? 5 + (body / 50) : null;

    /// <summary>A number of bytes in MB.</summary>
    public static string InMegabytes(long bytes) => (bytes / 1e6).ToString("F0", CultureInfo.InvariantCulture) + " MB";
}
