using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation.Scenes;

/// <summary>A frame of an assignment: a scene, an ISO, and how far the photographer exposed from the meter's zero.</summary>
public sealed record JobShot
{
    /// <summary>Every job's first frame is taken then.</summary>
    private static readonly DateTimeOffset Begin = new(2026, 4, 18, 9, 30, 0, TimeSpan.Zero);

    /// <summary>The name of its file.</summary>
    public required string File { get; init; }

    /// <summary>The scene.</summary>
    public required JobScene Scene { get; init; }

    /// <summary>The ISO.</summary>
    public required int Iso { get; init; }

    /// <summary>Exposure from the meter's zero, in EV.</summary>
    public double ExposureEv { get; init; }

    /// <summary>Its number: another number, other noise.</summary>
    public ulong Number { get; init; } = 1;

    /// <summary>The look of its preview; null for a file without one.</summary>
    public PreviewLook? Look { get; init; } = new();

    /// <summary>The form of its file.</summary>
    public DngOptions Form { get; init; } = new();

    /// <summary>Changes what the file says of itself; null for nothing.</summary>
    public Func<FrameMetadata, FrameMetadata>? Says { get; init; }

    /// <summary>What the file says of itself.</summary>
    /// <param name="camera">The camera.</param>
    public RawFrame Describe(VirtualCamera camera)
    {
        RawFrame raw = FrameDescription.Of(camera, camera.Body.At(Iso), Seconds, Begin + TimeSpan.FromMinutes(Number), Form, Look);
        return Says is { } says ? raw with { Metadata = says(raw.Metadata) } : raw;
    }

    /// <summary>Exposes it.</summary>
    /// <param name="camera">The camera.</param>
    /// <returns>Its codes in DN, stored rows × stored columns.</returns>
    public ushort[] Expose(VirtualCamera camera)
    {
        var codes = new ushort[camera.PixelCount];
        camera.Expose(ExposureOf(camera), codes);
        return codes;
    }

    /// <summary>The bytes of its file.</summary>
    /// <param name="camera">The camera.</param>
    public byte[] Encode(VirtualCamera camera)
    {
        ushort[] codes = Expose(camera);
        RawFrame raw = Describe(camera);
        JpegPreview? preview = Look is { } look ? PreviewMaker.Of(camera.Body, camera.Body.At(Iso), look, codes, raw.Layout) : null;
        return DngWriter.Encode(raw, codes, Form, preview);
    }

    private double Seconds => Math.Pow(2, ExposureEv) / 128;

    private Exposure ExposureOf(VirtualCamera camera) => new()
    {
        Setting = camera.Body.At(Iso),
        LightElectron = camera.Body.At(Iso).MiddleGreyElectron * Math.Pow(2, ExposureEv),
        ExposureSeconds = Seconds,
        Seed = camera.Body.PatternSeed,
        FrameNumber = Number,
        Texture = Scene.Light,
        Effects = Scene.Hot.Count == 0 ? [] : [MakeHot],
    };

    private void MakeHot(Span<ushort> codes, MosaicLayout layout)
    {
        foreach (int index in Scene.Hot)
        {
            int row = layout.ActiveArea.Y + (index / layout.ActiveArea.Width);
            codes[(row * layout.WidthPixels) + layout.ActiveArea.X + (index % layout.ActiveArea.Width)] = (ushort)((1 << layout.BitDepth) - 1);
        }
    }
}
