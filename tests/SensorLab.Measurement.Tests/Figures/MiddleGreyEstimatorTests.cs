using SensorLab.Law;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Model;
using SensorLab.Measurement.Tests.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Figures;

public sealed class MiddleGreyEstimatorTests
{
    /// <summary>Four frames at 2000 DN and two at 2030: (4·2000 + 2·2030)/6 = 2010.</summary>
    [Fact]
    public void Metered_TwoLevels_IsTheMeanOfTheirFramesAtTheSpot()
    {
        ChannelModel channel = Model("Y", [
            MadeUpLevels.Lit(1, 1500, 100, role: "metered", spotDn: 2000, frames: 4),
            MadeUpLevels.Lit(1.02, 1500, 100, role: "metered", spotDn: 2030)], null);
        Estimate grey = MiddleGreyEstimator.Metered(channel)!.Value;
        Assert.Equal(2010, grey.Value, 1e-9);
        Assert.Equal(0.5, grey.StandardUncertainty);
    }

    [Fact]
    public void Metered_NoMeteredFrames_IsNull() =>
        Assert.Null(MiddleGreyEstimator.Metered(Model("Y", [MadeUpLevels.Lit(1, 1500, 100)], null)));

    /// <summary>Green saturates first at 7800 DN: its grey is 1000; red sees half of the light, so 500 of the same exposure.</summary>
    [Fact]
    public void Saturation_FirstChannel_SetsOneExposureForAll()
    {
        const double black = MadeUpLevels.BlackDn;
        LevelRecord[] levels = [.. new[] { 1000.0, 2000, 4000, 20_000 }.Select(green => new LevelRecord
        {
            Role = "bracket",
            ExposureSeconds = green / 1000,
            Frames = 2,
            PixelsPerChannel = 10_000,
            RowsPerChannel = 100,
            Channels = [MadeUpLevels.Channel("G1", black + Math.Min(green, 7800), 100), MadeUpLevels.Channel("R", black + Math.Min(green / 2, 7800), 100)],
        })];
        ChannelModel[] channels = [.. new[] { "G1", "R" }.Select(name => Model(name, ObservedLevel.Of(levels, name), new Estimate(black + 7800, 7.8)))];
        IReadOnlyList<Estimate> grey = MiddleGreyEstimator.Saturation(channels)!;
        Assert.Equal(black + 1000, grey[0].Value, 1e-9);
        Assert.Equal(black + 500, grey[1].Value, 1e-9);
        Assert.Equal(1, grey[0].StandardUncertainty, 1e-9);
    }

    /// <summary>Where no level shows all channels unclipped, they are taken for equally sensitive: the one that saturates first sets the grey of all.</summary>
    [Fact]
    public void Saturation_NoLevelShowsAllChannels_TakesThemForEquallySensitive()
    {
        const double black = MadeUpLevels.BlackDn;
        ObservedLevel[] levels = [MadeUpLevels.Lit(1, black + 7800, 1, clipped: 1)];
        IReadOnlyList<Estimate> grey = MiddleGreyEstimator.Saturation([Model("G1", levels, new Estimate(black + 7800, 7.8)), Model("R", levels, new Estimate(black + 8000, 8))])!;

        Assert.Equal([black + 1000, black + 1000], grey.Select(g => g.Value));
    }

    [Fact]
    public void Saturation_NoChannelSaturates_IsNull() =>
        Assert.Null(MiddleGreyEstimator.Saturation([Model("Y", [MadeUpLevels.Lit(1, 1500, 100)], null)]));

    private static ChannelModel Model(string name, IReadOnlyList<ObservedLevel> levels, Estimate? saturation) => new()
    {
        Name = name,
        Levels = levels,
        Noise = NoiseModel.Empty.With(NoiseParameter.BlackDn, new Estimate(MadeUpLevels.BlackDn, 0)).With(NoiseParameter.SaturationMeanDn, saturation),
        CodeStepDn = 1,
    };
}
