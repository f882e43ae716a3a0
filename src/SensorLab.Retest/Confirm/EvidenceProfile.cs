using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Retest.Confirm;

/// <summary>What a job's frames measured, as a sensor profile of few figures: so that it is compared as any other is.</summary>
/// <remarks>
/// Read noise: the dark frames' variance without rounding. Gain: the photon transfer of two levels, the lit frames and the dark
/// ones, or, where there are none, the profile's own black and read noise (EMVA 1288 R4, photon transfer method).
/// </remarks>
internal static class EvidenceProfile
{
    /// <summary>Read noise below half a step is not what is left of the variance without a step's twelfth.</summary>
    private const double FewestSteps = 0.5;

    /// <summary>The profile of the evidence.</summary>
    /// <returns>Null where it holds no figure.</returns>
    public static SensorProfile? Of(SensorProfile profile, JobEvidence evidence)
    {
        IsoProfile[] isos =
        [
            .. evidence.Isos
                .Select(e => (Known: profile.IsoProfiles.FirstOrDefault(p => p.Iso == e.Iso), Evidence: e))
                .Where(e => e.Known is not null)
                .Select(e => Iso(e.Known!, e.Evidence))
                .Where(i => i.Channels.Any(c => c.BlackLevelDn is not null || c.GainElectronPerDn is not null)),
        ];
        return isos.Length == 0 ? null : profile with
        {
            Body = evidence.Bodies.Count > 0 ? evidence.Bodies[0] with { Maker = profile.Body.Maker, Model = profile.Body.Model } : profile.Body,
            RecordingMode = evidence.Mode,
            IsoProfiles = isos,
            Lights = [],
            Findings = [],
            Frames = [],
            Assumptions = [],
            Delivery = null,
        };
    }

    private static IsoProfile Iso(IsoProfile known, IsoEvidence evidence) => new()
    {
        Iso = known.Iso,
        Latitude = new IsoLatitude(),
        Channels = [.. known.Channels.Select(c => (c, Own: evidence.Channels.FirstOrDefault(e => e.Name == c.Name))).Where(c => c.Own is not null).Select(c => Channel(known, c.c, c.Own!))],

        // Spacings of codes and shapes of noise are compared elsewhere, or not at all: levels of another kind are no evidence.
        Levels = known.Levels,
    };

    private static ChannelProfile Channel(IsoProfile iso, ChannelProfile known, ChannelEvidence own)
    {
        double step = PublishedModel.CodeStepDn(iso, known.Name);
        return new ChannelProfile
        {
            Name = known.Name,
            DeclaredBlackDn = known.DeclaredBlackDn,
            DeclaredWhiteDn = known.DeclaredWhiteDn,
            BlackLevelDn = own.DarkMeanDn is { } dark ? Figure.Normal(dark.Value, dark.StandardUncertainty) : null,
            ReadNoiseDn = ReadNoise(own.DarkVarianceDn2, step),
            GainElectronPerDn = Gain(known, own, step),
            Latitude = new ChannelLatitude(),
        };
    }

    private static Figure? ReadNoise(Estimate? variance, double stepDn)
    {
        double square = (variance?.Value ?? double.NaN) - RoundingNoise.VarianceDn2(stepDn);
        double noise = Math.Sqrt(square);
        return square > 0 && noise > FewestSteps * stepDn ? Figure.Normal(noise, variance!.Value.StandardUncertainty / (2 * noise)) : null;
    }

    private static Figure? Gain(ChannelProfile known, ChannelEvidence own, double stepDn)
    {
        Estimate? black = own.DarkMeanDn ?? EstimateOf(known.BlackLevelDn);
        Estimate? dark = own.DarkVarianceDn2 ?? (EstimateOf(known.ReadNoiseDn) is { } read
            ? new Estimate((read.Value * read.Value) + RoundingNoise.VarianceDn2(stepDn), 2 * read.Value * read.StandardUncertainty)
            : null);
        if (own is not { LitMeanDn: { } lit, LitVarianceDn2: { } variance } || black is not { } level || dark is not { } floor)
        {
            return null;
        }

        double signal = PublishedModel.Response(known).ShotSignalOf(lit.Value - level.Value);
        double shot = variance.Value - floor.Value;
        if (!(signal > 0 && shot > 0))
        {
            return null;
        }

        double gain = signal / shot;
        double relative = Math.Sqrt(((variance.Variance + floor.Variance) / (shot * shot)) + ((lit.Variance + level.Variance) / (signal * signal)));
        return Figure.Normal(gain, gain * relative);
    }

    private static Estimate? EstimateOf(Figure? figure) => figure is { Value: { } value } ? new Estimate(value, figure.OfBody().StandardUncertainty ?? 0) : null;
}
