using SensorLab.Measurement.Black;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Tests.Findings;
using SensorLab.Measurement.Tests.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Black;

/// <summary>Black is what dark frames show at no exposure.</summary>
public sealed class DarkSignalTests
{
    private const double BlackDn = 512.25;

    /// <summary>Standard uncertainties that the error of a single set stays within: section 11 of the measurement model.</summary>
    private const double Deviations = 5;

    private const double BlackToleranceDn = 0.05;

    private const double ReadNoiseTolerance = 0.03;

    private const double ReadNoiseDn = 9.3;
    private const double RowNoiseDn = 2.46;

    // The longest dark frames have seconds, and half of all are that long: their mean would be off by DN.
    [Theory]
    [InlineData("dark-current=10", "dark-current")]
    [InlineData("dark-current=0.5", null)]
    [InlineData("dark-lit=5", "dark-lit")]
    [InlineData("dark-lit=0.5", null)]
    public void Black_DarkSignalGrows_IsThatOfTheShortFrames(string flaw, string? code)
    {
        IsoEvidence evidence = RehearsedSet.Evidence([flaw])[0];

        Assert.All(evidence.Profile.Channels, c =>
        {
            Assert.InRange(c.BlackLevelDn!.Value!.Value - BlackDn, -Tolerance(c.BlackLevelDn, BlackToleranceDn), Tolerance(c.BlackLevelDn, BlackToleranceDn));
            double read = RehearsedSet.SmallBody.At(100).ReadNoiseElectron;
            double allowed = Tolerance(c.ReadNoiseElectron!, ReadNoiseTolerance * read);
            Assert.InRange(c.ReadNoiseElectron!.Value!.Value - read, -allowed, allowed);
        });
        if (code is not null)
        {
            Finding finding = IsoChecks.Examine([evidence]).First(f => f.Code == code);
            Assert.Contains("Compensated: black is that of the short dark frames", finding.Message, StringComparison.Ordinal);
        }
    }

    // Read noise of a quarter code, whose dark codes are fitted and not their mean and variance.
    [Fact]
    public void Dark_CoarseCodesWithDarkSignal_AreThoseOfTheShortFrames()
    {
        ChannelProfile[] channels = [.. RehearsedSet.Evidence(["dark-current=1"], RehearsedSet.CoarseBody)[0].Profile.Channels];

        Assert.All(channels, c =>
        {
            Assert.InRange((c.BlackLevelDn!.Value!.Value - 100.25) / c.BlackLevelDn.StandardUncertainty!.Value, -Deviations, Deviations);
            Assert.InRange((c.ReadNoiseElectron!.Value!.Value - 1.44) / c.ReadNoiseElectron.StandardUncertainty!.Value, -Deviations, Deviations);
            Assert.InRange(0.3, c.DsnuElectron!.Lower95!.Value, c.DsnuElectron.Upper95!.Value);
        });
    }

    // Long dark frames whose variance holds the signal's shot noise: whether the signal stands out from the rows' noise
    // (0.087 DN of the difference of two means) or not, read noise is that of the short ones.
    [Theory]
    [InlineData(0)]
    [InlineData(0.06)]
    [InlineData(0.15)]
    [InlineData(2)]
    public void ReadNoise_LongFramesHoldADarkSignal_IsThatOfNone(double darkDn)
    {
        Figure readNoise = Characterised(darkDn, darkDn).ReadNoiseDn!;

        // What is left comes from black, which a signal that does not stand out moves, by way of the lit levels.
        Assert.InRange(Math.Abs(readNoise.Value!.Value - ReadNoiseDn) / readNoise.StandardUncertainty!.Value, 0, 0.05);
    }

    // Two deviations of chance in the long frames' mean, which once moved read noise by 1.3 of its uncertainties; they must move it by
    // something, or the long frames would not be used at all.
    [Fact]
    public void ReadNoise_ChanceInTheMeansOfLongFrames_IsInItsUncertainty()
    {
        const double deviationDn = RowNoiseDn / 20 / 1.4142135623730951;

        ChannelProfile straight = Characterised(0, 0);
        ChannelProfile moved = Characterised(0, 2 * deviationDn);

        double error = straight.ReadNoiseDn!.Value!.Value - moved.ReadNoiseDn!.Value!.Value;
        Assert.InRange(error / moved.ReadNoiseDn.StandardUncertainty!.Value, 0.1, 0.7);
    }

    // A drift of frames leaves some room for a dark signal, whose share of it black does not take.
    [Fact]
    public void Black_ThatDriftsBetweenFrames_IsTheMeanOfAllWithinItsUncertainty()
    {
        IsoEvidence evidence = RehearsedSet.Evidence(["black-drift=10"])[0];
        double[] means = [.. evidence.Darks.SelectMany(d => d.Record.Channels[0].FrameMeansDn)];

        double uncertainty = evidence.Profile.Channels[0].BlackLevelDn!.StandardUncertainty!.Value;
        Assert.InRange(Math.Abs(means.Average() - evidence.BlackDn(0)) / uncertainty, 0, 1);
    }

    /// <summary>A channel of 200 × 300 photosites, without chance, but for the mean of its long dark frames.</summary>
    /// <param name="darkDn">Dark signal of the long frames in DN.</param>
    /// <param name="seenDn">What their mean shows of it.</param>
    private static ChannelProfile Characterised(double darkDn, double seenDn)
    {
        const double gain = 6;
        double[] lights = [9000, 5000, 3000, 1000, 300, 100];
        LevelRecord[] levels =
        [
            Level("dark", 0.001, 0, 0),
            Level("dark", 1, darkDn, seenDn),
            .. lights.Select(light => Level("bracket", light / 1e5, light, light)),
        ];
        return IsoCharacteriser.Characterise(1600, levels, new IsoOptions()).Profile!.Channels[0];

        static LevelRecord Level(string role, double seconds, double signalDn, double seenDn) => new()
        {
            Role = role,
            ExposureSeconds = seconds,
            ApertureFNumber = 5.6,
            Frames = 8,
            PixelsPerChannel = 60_000,
            RowsPerChannel = 200,
            Channels = [Channel((ReadNoiseDn * ReadNoiseDn) - (RowNoiseDn * RowNoiseDn) + (1.0 / 12) + (gain * signalDn), BlackDn + seenDn)],
        };
    }

    private static LevelChannel Channel(double pixelDn2, double meanDn) => new()
    {
        Name = "Y",
        MeanDn = meanDn,
        MeanUncertaintyDn = 0.05,
        FrameMeansDn = [.. Enumerable.Repeat(meanDn, 8)],
        TemporalVarianceDn2 = pixelDn2 + (RowNoiseDn * RowNoiseDn),
        TemporalParts = Parts(pixelDn2, RowNoiseDn * RowNoiseDn, 7),
        FixedPatternVarianceDn2 = 1,
        FixedPatternParts = Parts(1, 0, 1),
    };

    private static VarianceParts Parts(double pixelDn2, double rowDn2, double contrasts) => new()
    {
        PixelDn2 = pixelDn2,
        PixelUncertaintyDn2 = pixelDn2 * Math.Sqrt(2 / (contrasts * 60_000)),
        RowDn2 = rowDn2,
        RowUncertaintyDn2 = (rowDn2 + (pixelDn2 / 300)) * Math.Sqrt(2 / (contrasts * 200)),
        ColumnDn2 = 0,
        ColumnUncertaintyDn2 = pixelDn2 / 200 * Math.Sqrt(2 / (contrasts * 300)),
    };

    private static double Tolerance(Figure figure, double smallest) => Math.Max(smallest, Deviations * figure.StandardUncertainty!.Value);

    /// <summary>Of twice the shortest time on a dark frame's rise is a signal; below, black moved.</summary>
    [Theory]
    [InlineData(1.9, 0)]
    [InlineData(2, 3)]
    public void Into_LongerThanTheShortest_IsASignalFromTwiceItsTimeOn(double times, double signalDn)
    {
        ObservedLevel[] levels = [Dark(0.1, MadeUpLevels.BlackDn), Dark(0.1 * times, MadeUpLevels.BlackDn + 3)];

        Assert.Equal(signalDn, DarkSignal.Into(levels, default)[1].DarkSignalDn.Value);

        static ObservedLevel Dark(double seconds, double meanDn) => MadeUpLevels.Lit(seconds, meanDn, 4, role: RoleName.Dark);
    }
}
