using System.Globalization;
using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>A frame of a rehearsal before it is exposed.</summary>
public sealed record PlannedFrame
{
    /// <summary>The number in its name, unique in the rehearsal.</summary>
    public required int Number { get; init; }

    /// <summary>What it serves for; null for a frame that lies beside the roles' folders.</summary>
    public required FrameRole? Role { get; init; }

    /// <summary>What happens to the sensor.</summary>
    public required Exposure Exposure { get; init; }

    /// <summary>What the file says of itself and its geometry; a flaw may make it say something untrue.</summary>
    public required RawFrame Raw { get; init; }

    /// <summary>The form of its file.</summary>
    public required DngOptions Form { get; init; }

    /// <summary>The look of its preview; null for a file without a preview.</summary>
    public PreviewLook? Look { get; init; }

    /// <summary>What frames.csv says of it, by column; empty where it needs no row there.</summary>
    public IReadOnlyDictionary<string, string> Columns { get; init; } = new SortedDictionary<string, string>(StringComparer.Ordinal);

    /// <summary>What happens to the bytes of its file; null where nothing does.</summary>
    public Func<byte[], byte[]>? FileEffect { get; init; }

    /// <summary>Path inside the frame set with forward slashes.</summary>
    public string File
    {
        get
        {
            string name = string.Create(CultureInfo.InvariantCulture, $"P{Number:0000}.dng");
            return Role is { } role ? $"{role.ToString().ToLowerInvariant()}/{name}" : name;
        }
    }

    /// <summary>The frame in other light.</summary>
    internal PlannedFrame WithLight(double factor) =>
        this with { Exposure = Exposure with { LightElectron = Exposure.LightElectron * factor } };

    /// <summary>The frame with something more that the body does to its codes.</summary>
    internal PlannedFrame WithEffect(ReadoutEffect effect) =>
        this with { Exposure = Exposure with { Effects = [.. Exposure.Effects, effect] } };

    /// <summary>The frame saying something else of itself.</summary>
    internal PlannedFrame WithMetadata(Func<FrameMetadata, FrameMetadata> change) =>
        this with { Raw = Raw with { Metadata = change(Raw.Metadata) } };

    /// <summary>The frame with a word more in frames.csv.</summary>
    internal PlannedFrame WithColumn(string column, string value) =>
        this with { Columns = new SortedDictionary<string, string>(Columns.ToDictionary(), StringComparer.Ordinal) { [column] = value } };
}
