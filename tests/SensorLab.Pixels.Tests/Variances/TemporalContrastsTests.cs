using SensorLab.Frames;
using SensorLab.Profiles;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Pixels.Tests.Variances;

public sealed class TemporalContrastsTests
{
    private const int Width = 192;

    /// <summary>Rows that share noise of 8 DN in one frame of four have a variance of 16 DN² on the mean, known as badly; where all frames have it, by the number of rows.</summary>
    [Fact]
    public void Of_OneFrameWithBands_KnowsTheRowsByTheFrames()
    {
        double[] rows = Rows(8);

        VarianceParts one = Measured(random => 5 * Normal(random), 0, rows);

        Assert.InRange(one.RowDn2, 10, 22);
        Assert.InRange(one.RowUncertaintyDn2, 0.3 * one.RowDn2, one.RowDn2);
    }

    /// <summary>Where frames are lit, bands go with each frame's own light, and one of half the light is no odd one.</summary>
    [Fact]
    public void Of_LitFramesOneOfWhichHasBands_KnowsTheRowsByTheirNumber()
    {
        VarianceParts parts = Measured(random => 5 * Normal(random), 1000, Rows(8));

        Assert.InRange(parts.RowUncertaintyDn2, 0, 0.1 * parts.RowDn2);
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
