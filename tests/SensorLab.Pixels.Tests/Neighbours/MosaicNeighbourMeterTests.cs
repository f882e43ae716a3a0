using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Pixels.Neighbours;

namespace SensorLab.Pixels.Tests.Neighbours;

/// <summary>Noise made here, filtered here: the correlations are those of the filter, and of nothing else.</summary>
public sealed class MosaicNeighbourMeterTests
{
    private const int Width = 384;
    private const int Height = 256;

    /// <summary>Deviations of chance that one test in 15,000 exceeds; all of them are seeded.</summary>
    private const double MostDeviations = 4;

    [Theory]
    [InlineData("RGGB")]
    [InlineData("GBRG")]
    [InlineData(Patterns.SixBySixName)]
    [InlineData(Patterns.QuadName)]
    [InlineData("2x4:RGBGGBGR")]
    [InlineData("1x3:RGB")]
    public void Measure_WhiteNoise_HasNoCorrelation(string filters)
    {
        NoiseNeighbours measured = Measure(filters, (noise, _, at) => noise[at]);

        Assert.InRange(measured.Sides.Value / measured.Sides.StandardUncertainty, -MostDeviations, MostDeviations);
        Assert.InRange(measured.Around.Value / measured.Around.StandardUncertainty, -MostDeviations, MostDeviations);
        if (filters.Length > 4)
        {
            return;
        }

        // Two pairs a photosite beside and below, two more across its corners, less those over the blocks' edges; of a
        // block's 32 rows and columns the means are taken out.
        const double kept = 31.0 / 32;
        Assert.InRange(kept * measured.Sides.StandardUncertainty * Math.Sqrt(2.0 * Width * Height), 1, 1.02);
        Assert.InRange(kept * measured.Around.StandardUncertainty * Math.Sqrt(4.0 * Width * Height), 1, 1.02);
    }

    /// <summary>
    /// Small planes lose a part of their values to the means that are taken out: unreckoned with, it made correlations scatter
    /// by 1.08 of what was stated. 400 of them tell a deviation to 3.5 %. Inside a channel of one place the means make it less: what
    /// they leave is stated whole.
    /// </summary>
    [Theory]
    [InlineData("RGGB")]
    [InlineData(Patterns.SixBySixName)]
    [InlineData(Patterns.QuadName)]
    public void Measure_WhiteNoiseOfSmallFrames_ScattersAsStated(string filters)
    {
        const int Sets = 400;
        const int Side = 48;
        ColourFilterArray array = ColourFilterArray.FromName(filters)!.Value;
        var random = new Random(5);
        (double sides, double around, double own) = (0, 0, 0);
        for (int set = 0; set < Sets; set++)
        {
            ushort[][] frames = [.. Enumerable.Range(0, 2).Select(_ => Noise(random, Side * Side).Select(n => (ushort)Math.Round(2000 + (40 * n))).ToArray())];
            LevelStatistics level = MadeUpLevel.Measure(frames, Side, array);
            sides += Square(level.Mosaic!.Sides) / Sets;
            around += Square(level.Mosaic.Around) / Sets;
            own += Square(level.Channels[1].TemporalNeighbours.Neighbours!.Sides) / Sets;
        }

        Assert.InRange(Math.Sqrt(sides), 0.9, 1.05);
        Assert.InRange(Math.Sqrt(around), 0.9, 1.05);
        Assert.InRange(Math.Sqrt(own), 0.85, 1.05);
    }

    /// <summary>The means that are taken out leave white noise with covariances, below 0 along lines and above 0 across corners: they are given back. 1000 planes of 12 × 12 tell the mean to a thirtieth of one's deviation.</summary>
    [Fact]
    public void Neighbours_WhiteNoiseOfSmallPlanes_HaveNoCorrelationOnTheMean()
    {
        const int Sets = 1000;
        const int Side = 24;
        ColourFilterArray array = ColourFilterArray.FromName("RGGB")!.Value;
        var random = new Random(6);
        (double sides, double around) = (0, 0);
        for (int set = 0; set < Sets; set++)
        {
            ushort[][] frames = [.. Enumerable.Range(0, 2).Select(_ => Noise(random, Side * Side).Select(n => (ushort)Math.Round(2000 + (40 * n))).ToArray())];
            NoiseNeighbours own = MadeUpLevel.Measure(frames, Side, array).Channels[1].TemporalNeighbours.Neighbours!;
            sides += own.Sides.Value / own.Sides.StandardUncertainty;
            around += own.Around.Value / own.Around.StandardUncertainty;
        }

        Assert.InRange(sides / Math.Sqrt(Sets), -MostDeviations, MostDeviations);
        Assert.InRange(around / Math.Sqrt(Sets), -MostDeviations, MostDeviations);
    }

    /// <summary>A small region is asked of all its pairs of frames, none twice; a large one tells enough by its first two.</summary>
    [Theory]
    [InlineData(48, 8, 4)]
    [InlineData(48, 5, 2)]
    [InlineData(480, 8, 2)]
    [InlineData(528, 8, 1)]
    public void Neighbours_OfMoreFrames_AreToldByAsManyPairsAsItTakes(int side, int frames, int pairs)
    {
        ColourFilterArray array = ColourFilterArray.FromName("RGGB")!.Value;
        var random = new Random(8);
        ushort[][] all = [.. Enumerable.Range(0, frames).Select(_ => Noise(random, side * side).Select(n => (ushort)Math.Round(2000 + (40 * n))).ToArray())];

        LevelStatistics two = MadeUpLevel.Measure(all[..2], side, array);
        LevelStatistics more = MadeUpLevel.Measure(all, side, array);

        Assert.Equal(pairs, Math.Pow(two.Mosaic!.Around.StandardUncertainty / more.Mosaic!.Around.StandardUncertainty, 2), 1e-9);
        Assert.Equal(pairs, more.Channels[0].TemporalNeighbours.Pairs / two.Channels[0].TemporalNeighbours.Pairs, 1e-9);
        Assert.Equal(two.Channels[0].StackNeighbours.Pairs, more.Channels[0].StackNeighbours.Pairs);
    }

    [Fact]
    public void Measure_LinesOfTheirOwnNoise_HaveNoCorrelation()
    {
        NoiseNeighbours measured = Measure("RGGB", (noise, lines, at) => noise[at] + (3 * lines[at / Width]) + (3 * lines[(at % Width) + 2]));

        Assert.InRange(measured.Sides.Value / measured.Sides.StandardUncertainty, -MostDeviations, MostDeviations);
        Assert.InRange(measured.Around.Value / measured.Around.StandardUncertainty, -MostDeviations, MostDeviations);
    }

    [Theory]
    [InlineData(0.05, "GRBG")]
    [InlineData(0.2, "GRBG")]
    [InlineData(0.05, Patterns.SixBySixName)]
    [InlineData(0.2, Patterns.QuadName)]
    public void Measure_FourNeighboursOfAnyColour_HasTheirCorrelation(double share, string filters)
    {
        NoiseNeighbours measured = Measure(filters, (noise, _, at) => ((1 - share) * noise[at]) + (share / 4 * (noise[at - 1] + noise[at + 1] + noise[at - Width] + noise[at + Width])));

        double own = 1 - share;
        Near(share / 2 * own / ((own * own) + (share * share / 4)), measured.Sides);
        Assert.True(measured.Around.Value < measured.Sides.Value);
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(0.2)]
    public void Measure_EightNeighboursOfAnyColour_HasTheirCorrelation(double share)
    {
        int[] around = [-Width - 1, -Width, -Width + 1, -1, 1, Width - 1, Width, Width + 1];
        NoiseNeighbours measured = Measure("BGGR", (noise, _, at) => ((1 - share) * noise[at]) + around.Sum(step => share / 8 * noise[at + step]));

        // Beside each other two kernels share each other's centres and four more photosites, across a corner two.
        double own = 1 - share;
        double part = share / 8;
        double variance = (own * own) + (8 * part * part);
        double sides = ((2 * own * part) + (4 * part * part)) / variance;
        double corners = ((2 * own * part) + (2 * part * part)) / variance;
        Near(sides, measured.Sides);
        Near((sides + corners) / 2, measured.Around);
    }

    [Fact]
    public void Measure_NeighboursOfTheSameColour_LeavesNoneOverTheColours()
    {
        NoiseNeighbours measured = Measure("RGGB", (noise, _, at) => (0.8 * noise[at]) + (0.1 * (noise[at - 2] + noise[at + 2])));

        Assert.InRange(measured.Sides.Value / measured.Sides.StandardUncertainty, -MostDeviations, MostDeviations);
    }

    /// <summary>Correlated products scatter by more than white ones: by a tenth at these shares.</summary>
    private static void Near(double expected, Estimate measured) =>
        Assert.InRange((measured.Value - expected) / measured.StandardUncertainty, -1.1 * MostDeviations, 1.1 * MostDeviations);

    private static double Square(Estimate correlation) => Math.Pow(correlation.Value / correlation.StandardUncertainty, 2);

    private static NoiseNeighbours Measure(string filters, Func<double[], double[], int, double> valueOf)
    {
        var random = new Random(filters.Length + filters[0]);
        ushort[][] frames = [.. Enumerable.Range(0, 2).Select(_ => Frame(random, valueOf))];
        return MadeUpLevel.Measure(frames, Width, ColourFilterArray.FromName(filters)!.Value).Mosaic!;
    }

    private static ushort[] Frame(Random random, Func<double[], double[], int, double> valueOf)
    {
        double[] noise = Noise(random, (Height + 4) * Width);
        double[] lines = Noise(random, Width + 4);
        return [.. Enumerable.Range(0, Width * Height).Select(at => (ushort)Math.Round(2000 + (40 * valueOf(noise, lines, at + (2 * Width)))))];
    }

    private static double[] Noise(Random random, int count) =>
        [.. Enumerable.Range(0, count).Select(_ => MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1))];
}
