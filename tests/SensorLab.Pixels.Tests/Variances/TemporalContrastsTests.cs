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
        VarianceParts one = Measured(signalDn: 0);

        Assert.InRange(one.RowDn2, 10, 22);
        Assert.InRange(one.RowUncertaintyDn2, 0.3 * one.RowDn2, one.RowDn2);
    }

    /// <summary>Where frames are lit, bands go with each frame's own light, and one of half the light is no odd one.</summary>
    [Fact]
    public void Of_LitFramesOneOfWhichHasBands_KnowsTheRowsByTheirNumber()
    {
        VarianceParts parts = Measured(signalDn: 1000);

        Assert.InRange(parts.RowUncertaintyDn2, 0, 0.1 * parts.RowDn2);
    }

    /// <summary>Four frames of 5 DN of noise about black and a signal, the third with half the signal and rows that share 8 DN.</summary>
    private static VarianceParts Measured(double signalDn)
    {
        const double Black = 500;
        var random = new Random(11);
        double[] rows = [.. Enumerable.Range(0, Width).Select(_ => 8 * Normal(random))];
        ushort[][] frames =
        [
            .. Enumerable.Range(0, 4).Select(frame => Enumerable.Range(0, Width * Width)
                .Select(i => (ushort)Math.Round(Black + (frame == 2 ? (signalDn / 2) + rows[i / Width] : signalDn) + (5 * Normal(random))))
                .ToArray()),
        ];
        return Assert.Single(MadeUpLevel.Measure(frames, Width, ColourFilterArray.Monochrome, blackDn: Black).Channels).Temporal!.Parts;
    }
}
