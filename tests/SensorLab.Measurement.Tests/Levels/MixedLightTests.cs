using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Levels;

/// <summary>Frames of one exposure whose means stand apart: by two lights, or by the pulses of one.</summary>
public sealed class MixedLightTests
{
    private const double BlackDn = 512;

    [Fact]
    public void LevelOfTwoLights_IsStepped() => Assert.Equal(FindingCode.LightStepped, Of(bandAmplitude: 0)?.Code);

    [Fact]
    public void LevelWhoseBandsAreWeakerThanTheGap_IsStepped() => Assert.Equal(FindingCode.LightStepped, Of(bandAmplitude: 0.05)?.Code);

    [Fact]
    public void LevelWhoseBandsAreAsStrongAsTheGap_IsBandedAndRefused()
    {
        Finding? found = Of(bandAmplitude: 0.9);

        Assert.NotNull(found);
        Assert.Equal((FindingCode.LightBanded, FindingSeverity.Refusal, "relative"), (found.Code, found.Severity, found.SizeUnit));
        Assert.Equal(0.9, found.Size!.Value, 1e-9);
    }

    /// <summary>Crest and trough of a pulse of one half lie log₂ 3 stops apart; of a lamp that goes out, as far as one likes.</summary>
    [Theory]
    [InlineData(0.5, 1.25, FindingCode.LightBanded)]
    [InlineData(0.5, 2.9, FindingCode.LightBanded)]
    [InlineData(0.5, 3.1, FindingCode.LightStepped)]
    [InlineData(1.0, 9.0, FindingCode.LightBanded)]
    public void LevelWhoseFramesLieApart_IsBandedUpToWhatThePulseCanDo(double bandAmplitude, double apart, string code) =>
        Assert.Equal(code, MixedLight.Of(400, Levels(apart, bandAmplitude))?.Code);

    [Fact]
    public void LevelOfTwoLightsWhoseBandsAreTheSensorsOwn_IsStepped() => Assert.Equal(FindingCode.LightStepped, MixedLight.Of(400, Levels(apart: 1.25, bandAmplitude: 0.9, darkBandsDn2: 40_000))?.Code);

    [Fact]
    public void LevelsOfOneLight_AreNeither() => Assert.Null(MixedLight.Of(400, Levels(apart: 1.001, bandAmplitude: 0.9)));

    // A fifth of a stop is what two lights are apart at least; less is flicker, which variances are free of.
    [Theory]
    [InlineData(0.19, false)]
    [InlineData(0.21, true)]
    public void LevelWhoseFramesLieApart_IsOfTwoLightsFromAFifthOfAStopOn(double apartEv, bool isMixed) =>
        Assert.Equal(isMixed, MixedLight.Of(400, Levels(Math.Pow(2, apartEv), bandAmplitude: 0)) is not null);

    /// <summary>Frames' means that are each known to 20 DN stand 75 DN apart by chance.</summary>
    [Fact]
    public void LevelWhoseFramesLieApartByNoise_IsOfOneLight() =>
        Assert.Null(MixedLight.Of(400, [.. Levels(apart: 1.25, bandAmplitude: 0).Select(l => l.ExposureSeconds == 0.004 ? l with { Channels = [l.Channels[0] with { MeanUncertaintyDn = 20 / Math.Sqrt(2) }] } : l)]));

    private static Finding? Of(double bandAmplitude) => MixedLight.Of(400, Levels(apart: 1.25, bandAmplitude));

    private static LevelRecord[] Levels(double apart, double bandAmplitude, double darkBandsDn2 = 0) =>
    [
        Level(RoleName.Dark, 0.01, [0, 0, 0, 0], darkBandsDn2),
        .. Enumerable.Range(0, 6).Select(i => Level(RoleName.Bracket, 0.01 * (1 << i), [100.0 * (1 << i), 100.02 * (1 << i)], bandsDn2: 0)),
        Level(RoleName.Bracket, 0.004, [300, 300 * apart], Math.Pow(bandAmplitude * 300 * (1 + apart) / 2, 2) / 2),
    ];

    private static LevelRecord Level(string role, double seconds, double[] signalsDn, double bandsDn2)
    {
        double mean = signalsDn.Average();
        return new LevelRecord
        {
            Role = role,
            ExposureSeconds = seconds,
            Frames = signalsDn.Length,
            PixelsPerChannel = 10_000,
            Channels =
            [
                new LevelChannel
                {
                    Name = "G1",
                    MeanDn = BlackDn + mean,
                    FrameMeansDn = [.. signalsDn.Select(s => BlackDn + s)],
                    BandVarianceDn2 = bandsDn2,
                },
            ],
        };
    }
}
