using System.Globalization;
using SensorLab.FlawMatrix.Foreign;
using SensorLab.Measurement.Tests.Findings;
using SensorLab.Pixels.Tests;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Records;

/// <summary>Findings of sets with flaws by other laws, with their words, and what becomes of the figures, as on record.</summary>
public sealed class OtherLawRecordTests
{
    [Theory]
    [InlineData("odd frame", 0.1)]
    [InlineData("short shutter", 0.0001)]
    [InlineData("switched lamp", 0.2)]
    [InlineData("blobs", 0.02)]
    [InlineData("shake", 0.01)]
    [InlineData("even leak", 1)]
    [InlineData("leak in one frame", 0.05)]
    [InlineData("leak in one frame", 1)]
    [InlineData("warm pixels", 1000)]
    [InlineData("blinking pixels", 20)]
    [InlineData("pickup", 0.5)]
    [InlineData("black walks", 1)]
    [InlineData("black follows light", 30)]
    [InlineData("cubic response", 0.05)]
    [InlineData("knee", 0.3)]
    [InlineData("late knee", 0.03)]
    [InlineData("two converters", 0.02)]
    [InlineData("uneven wells", 0.08)]
    [InlineData("excess noise", 0.003)]
    [InlineData("subranges", 0.1)]
    [InlineData("missing codes", 1)]
    [InlineData("noisy lamp", 0.01)]
    [InlineData("floor", 1)]
    [InlineData("dead column", 1)]
    [InlineData("bright column", 60)]
    [InlineData("glowing corner", 12)]
    [InlineData("lagging readout", 0.015)]
    [InlineData("gaps of codes", 4)]
    [InlineData("square-root curve", 1000)]
    [InlineData("three by three", 0.1)]
    [InlineData("three by three", 0.5)]
    [InlineData("smoothed shadows", 4)]
    [InlineData("sharpened", 0.05)]
    [InlineData("crosstalk taken out", 0.05)]
    [InlineData("black taken off", 2)]
    [InlineData("push", 1.7)]
    [InlineData("two readouts", 20)]
    [InlineData("one channel bends", 0.05)]
    [InlineData("eclipse", 0.5)]
    [InlineData("black tilts", 10)]
    [InlineData("first release", 0.05)]
    [InlineData("one loud dark frame", 10)]
    [InlineData("one banded frame", 3)]
    [InlineData("photosites bend apart", 0.03)]
    [InlineData("black of lit frames", 0.2)]
    [InlineData("black of lit frames", 0.5)]
    [InlineData("noise to one side", 4)]
    public void Law_GivesWhatIsOnRecord(string name, double size) => Verify(name, size, "LM-2", RehearsedSet.SmallBody);

    [Theory]
    [InlineData("knee", 0.05)]
    [InlineData("knee", 0.3)]
    [InlineData("late knee", 0.03)]
    [InlineData("two converters", 0.004)]
    [InlineData("excess noise", 0.003)]
    [InlineData("two readouts", 5)]
    [InlineData("short shutter", 0.001)]
    [InlineData("lamp burns in", 0.2)]
    [InlineData("smoothed shadows", 1)]
    [InlineData("cubic response", 0.05)]
    [InlineData("subranges", 0.1)]
    [InlineData("gaps of codes", 4)]
    [InlineData("push", 1.7)]
    [InlineData("uneven wells", 0.08)]
    [InlineData("floor", 1)]
    [InlineData("black taken off", 2)]
    [InlineData("three by three", 0.02)]
    [InlineData("black walks", 1)]
    [InlineData("leak in one frame", 10)]
    [InlineData("focus photosites", 0.6)]
    public void Law_OnOneChannel_GivesWhatIsOnRecord(string name, double size) => Verify(name, size, "LM-2m", RehearsedSet.SmallBody with { ColourFilterArray = "monochrome" });

    [Theory]
    [InlineData("weave", 0.01)]
    [InlineData("lagging readout", 0.05)]
    [InlineData("glowing corner", 12)]
    [InlineData("median", 0.2)]
    public void Law_OnLargePatterns_GivesWhatIsOnRecord(string name, double size)
    {
        Verify(name, size, "LM-4", RehearsedSet.SmallBody with { ColourFilterArray = Patterns.QuadName });
        Verify(name, size, "LM-6", RehearsedSet.SmallBody with { ColourFilterArray = Patterns.SixBySixName });
    }

    private static void Verify(string name, double size, string model, VirtualBody body) => FigureRecord.Verify(
        RehearsedSet.Evidence(ForeignFlaws.Named(name), size, body),
        string.Create(CultureInfo.InvariantCulture, $"OtherLaws/{model} {name} {size}"));
}
