using SensorLab.Frames;
using SensorLab.Profiles;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Pixels.Tests.Variances;

public sealed class TemporalContrastsTests
{
    private const int Width = 192;

    /// <summary>
    /// Four frames without light, the third of which has noise of 15 DN and not of 5: their variance's mean is 75 DN², and how far
    /// it may be off is told by how the frames differ, not by their pixels. Frames that are alike keep the pixels' uncertainty.
    /// </summary>
    [Theory]
    [InlineData(15, 75, 15, 60)]
    [InlineData(5, 25, 0.1, 0.15)]
    public void Of_OneFrameOfMoreNoise_KnowsTheVarianceByTheFrames(double oddDn, double meanDn2, double least, double most)
    {
        VarianceParts parts = Measured(random => oddDn * Normal(random), 0);

        Assert.Equal(meanDn2, parts.PixelDn2, 0.03 * meanDn2);
        Assert.InRange(parts.PixelUncertaintyDn2, least, most);
    }

    /// <summary>Rows that share noise of 8 DN in one frame of four have a variance of 16 DN² on the mean, known as badly; where all frames have it, by the number of rows.</summary>
    [Fact]
    public void Of_OneFrameWithBands_KnowsTheRowsByTheFrames()
    {
        double[] rows = Rows(8);

        VarianceParts one = Measured(random => 5 * Normal(random), 0, rows);

        Assert.InRange(one.RowDn2, 10, 22);
        Assert.InRange(one.RowUncertaintyDn2, 0.3 * one.RowDn2, one.RowDn2);
    }

    /// <summary>Where frames are lit, noise goes with each frame's own light, and one of half the light is no odd one.</summary>
    [Fact]
    public void Of_LitFramesOfUnlikeLight_KeepsThePixelsUncertainty()
    {
        VarianceParts parts = Measured(random => 5 * Normal(random), 1000);

        Assert.Equal(parts.PixelDn2 * Math.Sqrt(2.0 / (3 * Width * Width * 31 * 31 / (32 * 32))), parts.PixelUncertaintyDn2, 0.02 * parts.PixelUncertaintyDn2);
    }

    private static double[] Rows(double deviationDn)
    {
        var random = new Random(3);
        return [.. Enumerable.Range(0, Width).Select(_ => deviationDn * Normal(random))];
    }

    /// <summary>Four frames of 5 DN of noise about black and a signal, the third of another noise, with rows of its own and half the signal.</summary>
    private static VarianceParts Measured(Func<Random, double> odd, double signalDn, double[]? rows = null)
    {
        const double Black = 500;
        var random = new Random(11);
        ushort[][] frames =
        [
            .. Enumerable.Range(0, 4).Select(frame => Enumerable.Range(0, Width * Width)
                .Select(i => (ushort)Math.Round(Black + (frame == 2 ? (signalDn / 2) + odd(random) + (rows?[i / Width] ?? 0) : signalDn + (5 * Normal(random)))))
                .ToArray()),
        ];
        return Assert.Single(MadeUpLevel.Measure(frames, Width, ColourFilterArray.Monochrome, blackDn: Black).Channels).Temporal!.Parts;
    }
}
