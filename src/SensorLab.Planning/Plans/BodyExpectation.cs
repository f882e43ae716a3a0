using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Planning.Plans;

/// <summary>What is expected of a body: from an earlier profile of it, or from typical figures.</summary>
internal sealed class BodyExpectation
{
    // A body of 24 megapixels and 14 bits as many are, no one's in particular.
    private const double TypicalPixels = 24e6;
    private const double TypicalBits = 14;
    private const double TypicalGreyElectronAtBase = 4500;
    private const double TypicalGainElectronPerDnAtBase = 2.6;
    private const double TypicalSaturationOverGrey = 9.2;
    private const double TypicalAmplifierElectron = 1.6;
    private const double TypicalConverterDn = 1.0;
    private const double TypicalCodeStepDn = 1;
    private const double TypicalPrnuFraction = 0.006;
    private const double TypicalDsnuElectron = 0.4;
    private const double BaseIso = 100;

    // The evenly lit part of a field, and the spot meter's share of each side (the same as a set is measured with).
    private const double TypicalRegionShare = 0.5;
    private const double SpotSideShare = 1.0 / 8;

    // Metadata and previews come on top of the mosaic.
    private const double FileOverhead = 1.05;

    private readonly SensorProfile? _profile;

    private BodyExpectation(SensorProfile? profile) => _profile = profile;

    /// <summary>Pixels of one channel in the region measured.</summary>
    public required double PixelsPerChannel { get; init; }

    /// <summary>Pixels of one channel where the spot meter looks.</summary>
    public required double SpotPixelsPerChannel { get; init; }

    /// <summary>Bytes of a raw file.</summary>
    public required double FrameBytes { get; init; }

    /// <summary>Green channels that are pooled: 2, or 1 without filters.</summary>
    public required int Greens { get; init; }

    /// <summary>Whether no body was named.</summary>
    public bool IsTypical => _profile is null;

    /// <summary>Where the expectation comes from, in a sentence.</summary>
    public required string Source { get; init; }

    /// <summary>The expectation.</summary>
    /// <param name="profile">An earlier profile of the body; null for typical figures.</param>
    public static BodyExpectation Of(SensorProfile? profile)
    {
        if (profile is null)
        {
            return new BodyExpectation(null)
            {
                PixelsPerChannel = TypicalPixels / 4 * TypicalRegionShare,
                SpotPixelsPerChannel = TypicalPixels / 4 * SpotSideShare * SpotSideShare,
                FrameBytes = TypicalPixels * TypicalBits / 8 * FileOverhead,
                Greens = 2,
                Source = "Card space and prediction are for a typical body of 24 megapixels and 14 bits; --from takes an earlier profile of yours.",
            };
        }

        int channels = profile.IsoProfiles.Max(i => i.Channels.Count);
        double pixels = (double)profile.Sensor.WidthPixels * profile.Sensor.HeightPixels;
        double perChannel = pixels / Math.Max(1, channels);
        return new BodyExpectation(profile)
        {
            PixelsPerChannel = profile.IsoProfiles.SelectMany(i => i.Levels).Select(l => (double)l.PixelsPerChannel).DefaultIfEmpty(perChannel * TypicalRegionShare).First(),
            SpotPixelsPerChannel = perChannel * SpotSideShare * SpotSideShare,
            FrameBytes = pixels * (profile.RecordingMode.BitDepth ?? TypicalBits) / 8 * FileOverhead,
            Greens = channels > 1 ? 2 : 1,
            Source = $"Card space and prediction are from the earlier profile of {NameOf(profile.Body)}.",
        };
    }

    /// <summary>What is expected at an ISO; where it was not measured, a guess by the nearest one that was, good enough to lay exposures out and for nothing else.</summary>
    /// <param name="iso">The ISO.</param>
    public SensorExpectation At(int iso)
    {
        SensorExpectation[] known = [.. _profile?.IsoProfiles.Select(Measured).OfType<SensorExpectation>() ?? []];
        if (known.FirstOrDefault(k => k.Iso == iso) is { } measured)
        {
            return measured;
        }

        if (known.Length == 0)
        {
            return Typical(iso) with { IsKnown = _profile is null };
        }

        return known.MinBy(k => Math.Abs(Math.Log2((double)k.Iso / iso)))!.ScaledTo(iso);
    }

    private static SensorExpectation Typical(int iso)
    {
        double ratio = BaseIso / iso;
        double gain = TypicalGainElectronPerDnAtBase * ratio;
        double greyDn = TypicalGreyElectronAtBase * ratio / gain;
        double readNoiseDn = double.Hypot(TypicalAmplifierElectron / gain, TypicalConverterDn);
        NoiseModel noise = PublishedModel.WithoutLines
            .With(NoiseParameter.BlackDn, new Estimate(0, 0))
            .With(NoiseParameter.GainDnPerElectron, new Estimate(1 / gain, 0))
            .With(NoiseParameter.InterceptDn2, new Estimate((readNoiseDn * readNoiseDn) + RoundingNoise.VarianceDn2(TypicalCodeStepDn), 0))
            .With(NoiseParameter.GreyMeanDn, new Estimate(greyDn, 0))
            .With(NoiseParameter.SaturationMeanDn, new Estimate(greyDn * TypicalSaturationOverGrey, 0));
        return new SensorExpectation(iso, WithTypicalPattern(noise), TypicalCodeStepDn, true);
    }

    private static SensorExpectation? Measured(IsoProfile iso) =>
        PublishedModel.Pooled(iso) is { } noise && double.IsFinite(noise.AboveEv())
            ? new SensorExpectation(iso.Iso, WithTypicalPattern(noise), PublishedModel.CodeStepDn(iso, iso.Channels.First(c => ChannelName.IsPooled(c.Name)).Name), true)
            : null;

    // A pattern that was not found, or only bounded, is expected to be a typical one.
    private static NoiseModel WithTypicalPattern(NoiseModel noise)
    {
        double dsnuDn = TypicalDsnuElectron * noise[NoiseParameter.GainDnPerElectron];
        NoiseModel known = double.IsNaN(noise.DsnuSquareDn2) ? noise.With(NoiseParameter.PixelDsnuSquareDn2, new Estimate(dsnuDn * dsnuDn, 0)) : noise;
        return double.IsNaN(noise.PrnuSquare) ? known.With(NoiseParameter.PixelPrnuSquare, new Estimate(TypicalPrnuFraction * TypicalPrnuFraction, 0)) : known;
    }

    private static string NameOf(BodyIdentity body)
    {
        string name = string.Join(' ', new[] { body.Maker, body.Model, body.SerialNumber }.OfType<string>());
        return name.Length > 0 ? name : "an unnamed body";
    }
}
