using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.Simulation.Writing;

namespace SensorLab.Fuzzing.Commands;

/// <summary>A sound frame set of a few kilobytes a frame: as few frames as can be characterised, so that a fuzzer gets through many.</summary>
internal static class SmallSet
{
    /// <summary>The setting at which its middle grey is metered, as <c>assign --metered</c> takes it.</summary>
    public const string Metered = "1/8@400";

    /// <summary>Filters that repeat over 6 × 6 photosites.</summary>
    public const string SixBySix = "6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG";

    /// <summary>Filters of which four photosites share one.</summary>
    public const string Quad = "4x4:RRGGRRGGGGBBGGBB";

    private const int Iso = 400;
    private const double MeteredSeconds = 0.125;
    private const int WidthPixels = 40;
    private const int HeightPixels = 28;

    /// <summary>Filters that repeat over more photosites need more of them.</summary>
    private const int LargeWidthPixels = 80;
    private const int LargeHeightPixels = 72;

    private static readonly ScriptedShot[] Shots =
    [
        new ScriptedShot { Role = FrameRole.Dark, Iso = Iso, ExposureSeconds = 1.0 / 4000, Frames = 2 },
        new ScriptedShot { Role = FrameRole.Dark, Iso = Iso, ExposureSeconds = 1, Frames = 2 },
        new ScriptedShot { Role = FrameRole.Metered, Iso = Iso, ExposureSeconds = MeteredSeconds, Frames = 2, TrimEv = 0.1 },
        .. Enumerable.Range(0, 9).Select(i => new ScriptedShot { Role = FrameRole.Bracket, Iso = Iso, ExposureSeconds = MeteredSeconds * Math.Pow(2, (1.5 * i) - 7), Frames = 2 }),
    ];

    /// <summary>Writes it.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="form">The form of its files.</param>
    /// <param name="hasPreviews">Whether its files hold previews.</param>
    /// <param name="filters">Filters that repeat over more than 2 × 2 photosites; null for none such.</param>
    public static void Write(string folder, DngOptions form, bool hasPreviews, string? filters = null) => Rehearsal.Write(folder, new RehearsalOptions
    {
        Body = new VirtualBody { Look = hasPreviews ? new VirtualBody().Look : null, ColourFilterArray = filters ?? new VirtualBody().ColourFilterArray },
        WidthPixels = filters is null ? WidthPixels : LargeWidthPixels,
        HeightPixels = filters is null ? HeightPixels : LargeHeightPixels,
        Script = Shots,
        Form = form,
        Jobs = 1,
    });

    /// <summary>The raw files of a set or a card.</summary>
    /// <param name="folder">The folder.</param>
    public static string[] FramesOf(string folder) => [.. Directory.EnumerateFiles(folder, "*.dng", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
}
