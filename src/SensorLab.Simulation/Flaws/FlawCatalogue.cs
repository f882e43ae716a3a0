using System.Globalization;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>The flaws that a rehearsal can have.</summary>
public static class FlawCatalogue
{
    private static readonly SortedDictionary<string, IFlaw> ByCode = new(
        new IFlaw[]
        {
            new LightFlicker(), new LightDrift(), new LightStepped(), new LightBanded(), new ExposureInexact(), new TargetUneven(), new TargetTextured(),
            new PixelsHot(), new LinesDead(), new FieldGlowing(), new BlackDrift(), new BlackClipped(), new DarkLit(), new DarkCurrent(), new DarkMissing(),
            new MeteredMissing(), new MeteredDoubtful(), new FrameDuplicate(), new FrameUnreadable(), new FrameIncomplete(),
            new FrameUnassigned(), new FrameSizeDiffers(), new FrameUnsuitable(), new FramesNone(), new PairMissing(),
            new LevelsTooFew(), new SaturationNotReached(), new ShadowNotReached(), new BodyMixed(), new FirmwareMixed(),
            new FirmwareUnknown(), new ModeMixed(), new DepthMixed(), new LensSettingMixed(), new NoiseBanded(), new ShadowBanded(),
            new NoiseBelowStep(), new RawFiltered(), new RawCompanded(), new ResponseNonlinear(), new ModelRejected(),
            new ChannelScaled(), new GainDigital(), new GainShared(), new GainSwitch(), new IsoDisagrees(), new LevelsDeclared(),
            new PreviewMissing(), new PreviewAdaptive(),
        }.ToDictionary(flaw => flaw.Code),
        StringComparer.Ordinal);

    /// <summary>All flaws by code.</summary>
    public static IReadOnlyList<FlawDescription> All { get; } =
        [.. ByCode.Values.Select(flaw => new FlawDescription(flaw.Code, flaw.Meaning, flaw.Size))];

    /// <summary>Finds a flaw and settles its size.</summary>
    internal static AppliedFlaw Resolve(FlawRequest request)
    {
        if (!ByCode.TryGetValue(request.Code, out IFlaw? flaw))
        {
            throw new RehearsalUsageException($"No flaw is called '{request.Code}'. The flaws are: {string.Join(", ", ByCode.Keys)}.");
        }

        if (request.Size is not { } size)
        {
            return new AppliedFlaw(flaw, flaw.Size.Default);
        }

        if (!flaw.Size.IsSized)
        {
            throw new RehearsalUsageException($"The flaw {flaw.Code} has no size: it is there or not.");
        }

        bool isWhole = flaw.Size.Unit != "count" || size == Math.Floor(size);
        if (!(size >= flaw.Size.Smallest && size <= flaw.Size.Largest) || !isWhole)
        {
            string limits = string.Create(CultureInfo.InvariantCulture, $"{flaw.Size.Smallest} to {flaw.Size.Largest}");
            throw new RehearsalUsageException($"The size of flaw {flaw.Code} ({flaw.Size.Unit}) must be {limits}{(flaw.Size.Unit == "count" ? ", a whole number" : string.Empty)}.");
        }

        return new AppliedFlaw(flaw, size);
    }
}
