using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Tests.Model;
using SensorLab.Profiles;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Measurement.Tests.Black;

/// <summary>Black, its drift and dark signal, from dark frames that are made up.</summary>
public sealed class BlackModelTests
{
    private const double PixelDn2 = 4;

    private const int Pixels = 10_000;

    /// <summary>Deviation of one frame's mean by the pixels' noise.</summary>
    private const double NoiseDn = 0.02;

    [Fact]
    public void OwnOf_SteadyBlack_RestsOnThePixels()
    {
        Estimate black = BlackModel.Of([Dark(1, 0, 512 - NoiseDn, 512 + NoiseDn)]).OwnOf("Y");
        Assert.Equal(512, black.Value, 9);

        // The fixed pattern's 1 DN² and half the temporal variance of two frames, over 10 000 pixels.
        Assert.Equal(Math.Sqrt((1 + (PixelDn2 / 2)) / Pixels), black.StandardUncertainty, 1e-9);
        Assert.True(double.IsPositiveInfinity(black.DegreesOfFreedom));
    }

    /// <summary>100 rows of 1 DN² leave 0.01 DN² in the mean; known to a fifth, they are worth 2·5² degrees of freedom.</summary>
    [Fact]
    public void OwnOf_FixedRows_RestsOnFewLines()
    {
        Estimate black = BlackModel.Of([Dark(1, 1, 512 - NoiseDn, 512 + NoiseDn)]).OwnOf("Y");
        double pixels = (1 + (PixelDn2 / 2)) / Pixels;
        Assert.Equal(Math.Sqrt(0.01 + pixels), black.StandardUncertainty, 1e-9);
        Assert.Equal(50 * Math.Pow((0.01 + pixels) / 0.01, 2), black.DegreesOfFreedom, 1e-3);
    }

    /// <summary>Four dark frames foretell little of lit ones: what lies far out is weighed as a Student's variate of three degrees of freedom.</summary>
    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 1)]
    [InlineData(3, 3)]
    [InlineData(10, 25.75)]
    public void OfLitShiftDn2At_FewDarkFrames_LetsGoOfWhatLiesFarOut(double deviations, double expected)
    {
        var drift = new BlackDrift(0.03, 0.01, 0.02, 3);

        Assert.Equal(0.04 * expected, drift.OfLitShiftDn2At(0.2 * deviations), 1e-12);
    }

    [Fact]
    public void OfLitShiftDn2At_DriftThatIsKnown_IsItsVariance() =>
        Assert.Equal(0.04, new BlackDrift(0.03, 0.01, 0.02, double.PositiveInfinity).OfLitShiftDn2At(5), 1e-12);

    /// <summary>Student's distribution of the frames' mean: s/√n with n − 1 degrees of freedom.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(8)]
    public void Drift_FarBeyondNoise_IsStudents(int pairs)
    {
        double[] frames = [.. Enumerable.Range(0, pairs).SelectMany(_ => new[] { 511.0, 513.0 })];
        BlackDrift drift = BlackModel.Of([Dark(1, 0, frames)]).Drift;
        int degrees = frames.Length - 1;
        double half = StudentTail.Factor95(degrees) * Math.Sqrt((double)frames.Length / degrees / frames.Length);
        Assert.Equal(half, StudentTail.Factor95(drift.DegreesOfFreedom) * Math.Sqrt(drift.BlackDn2), 0.15 * half);
        Assert.InRange(drift.DegreesOfFreedom, 0.7 * degrees, 1.4 * degrees);
    }

    [Fact]
    public void OfOneBlack_LongFramesBrighter_AreTheShortOnesAndNoLevelDiffers()
    {
        LevelRecord[] darks = [Dark(0.01, 0, 511.99, 512.01, 512), Dark(10, 0, 520, 520.01, 519.99)];
        var model = BlackModel.Of(darks);
        Assert.Equal([darks[0]], model.OfOneBlack);
        Assert.Equal(512, model.OwnOf("Y").Value, 0.005);
        Assert.True(model.Drift.FrameDn2 < NoiseDn * NoiseDn);
        Assert.True(model.LevelsDn2 < NoiseDn * NoiseDn);
    }

    /// <summary>No signal is below none: black itself sank, and levels differ by half the square of 2 DN.</summary>
    [Fact]
    public void OfOneBlack_LongFramesDarker_AreTheShortOnesAndLevelsDiffer()
    {
        LevelRecord[] darks = [Dark(0.01, 0, 511.99, 512.01, 512), Dark(10, 0, 510, 510.01, 509.99)];
        var model = BlackModel.Of(darks);
        Assert.Equal([darks[0]], model.OfOneBlack);
        Assert.InRange(model.LevelsDn2, 1.9, 4);
    }

    [Fact]
    public void Of_LevelsOfOneFrame_StandsStill()
    {
        LevelRecord[] single = [Dark(1, 0, 512) with { Channels = [MadeUpLevels.Channel("Y", 512, PixelDn2) with { TemporalParts = null, FrameMeansDn = [512] }] }];
        var model = BlackModel.Of(single);
        Assert.Equal(BlackDrift.None, model.Drift);
        Assert.Equal(512, model.OwnOf("Y").Value);
        Assert.Null(model.Scatter);
    }

    /// <summary>
    /// The interval of black holds what is true, whatever moves it, in 1000 sets drawn. What can just not be told is covered a
    /// little less, and two frames that happen to agree tell of no drift at all; a drift from level to level that looks like a dark
    /// signal is covered least.
    /// </summary>
    /// <param name="least">Least share of sets whose interval must hold the truth: what 10 000 sets showed (0.90 where it is 0.87) less three standard errors of 1000, or a round figure below.</param>
    /// <param name="driftDn">Standard deviation of black from frame to frame.</param>
    /// <param name="levelDn">Standard deviation from level to level.</param>
    /// <param name="riseDn">Dark signal of the longest frames.</param>
    /// <param name="counts">Frames of each level.</param>
    [Theory]
    [InlineData(0.93, 0.0, 0.0, 0.0, 8)]
    [InlineData(0.93, 0.0, 0.0, 0.0, 4, 4)]
    [InlineData(0.8, 0.3, 0.0, 0.0, 2)]
    [InlineData(0.92, 0.3, 0.0, 0.0, 4)]
    [InlineData(0.93, 0.3, 0.0, 0.0, 16)]
    [InlineData(0.8, 0.3, 0.3, 0.0, 8, 8)]
    [InlineData(0.93, 0.3, 0.0, 0.0, 8, 8)]
    [InlineData(0.87, 0.04, 0.0, 0.0, 8)]
    [InlineData(0.87, 0.0, 0.0, 0.02, 8, 8)]
    [InlineData(0.92, 0.0, 0.0, 0.05, 8, 8)]
    [InlineData(0.93, 0.0, 0.0, 2.0, 8, 8)]
    [InlineData(0.93, 0.3, 0.0, 2.0, 8, 8)]
    public void Black_SetsDrawn_IsCovered(double least, double driftDn, double levelDn, double riseDn, params int[] counts)
    {
        const int sets = 1000;
        const double blackDn = 512.3;
        var random = new Random(17);
        int covered = 0;
        for (int i = 0; i < sets; i++)
        {
            LevelRecord[] darks = [.. counts.Select((count, l) =>
            {
                double level = blackDn + (levelDn * Normal(random)) + (l == counts.Length - 1 && l > 0 ? riseDn : 0);
                return Dark(l == 0 ? 0.01 : 10, 0, [.. Enumerable.Range(0, count).Select(_ => level + (double.Hypot(driftDn, NoiseDn) * Normal(random)))]);
            })];
            var model = BlackModel.Of(darks);
            Estimate own = model.OwnOf("Y");

            // The pattern's sampling is the same in all frames and not drawn here.
            double noise = Math.Max(0, own.Variance - (1.0 / Pixels));
            double variance = noise + model.Drift.BlackDn2;
            double degrees = variance * variance / (model.Drift.BlackDn2 * model.Drift.BlackDn2 / model.Drift.DegreesOfFreedom);
            covered += Math.Abs(own.Value - blackDn) <= StudentTail.Factor95(Math.Max(degrees, model.Drift.DegreesOfFreedom)) * Math.Sqrt(variance) ? 1 : 0;
        }

        Assert.InRange(covered / (double)sets, least, 1);
    }

    private static LevelRecord Dark(double seconds, double rowDn2, params double[] framesDn)
    {
        LevelChannel plain = MadeUpLevels.Channel("Y", framesDn.Average(), PixelDn2);
        LevelChannel channel = plain with
        {
            FrameMeansDn = framesDn,
            FixedPatternParts = plain.FixedPatternParts! with { RowDn2 = rowDn2, RowUncertaintyDn2 = rowDn2 == 0 ? 0.001 : rowDn2 / 5, ColumnUncertaintyDn2 = 1e-9 },
        };
        return new LevelRecord { Role = "dark", ExposureSeconds = seconds, Frames = framesDn.Length, PixelsPerChannel = Pixels, RowsPerChannel = 100, Channels = [channel] };
    }
}
