using SensorLab.Frames;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels;
using SensorLab.Pixels.Field;
using SensorLab.Pixels.Tests;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Measurement.Tests.Levels;

/// <summary>Lights that nobody named, told from frames' means: black 500 DN, a clip at 60 000.</summary>
public sealed class LightSplitTests
{
    private const int Width = 64;
    private const int Height = 48;
    private const double BlackDn = 500;

    private readonly List<LevelStatistics> _levels = [];
    private int _taken;

    public LightSplitTests() => Add(FrameRole.Dark, 0.01, 0, 0, 0, 0);

    [Fact]
    public void OneLight_HasNoSteps()
    {
        Bracket(light: 1, stops: 6, each: 2);
        Add(FrameRole.Metered, 0.04, 1, 1);

        Assert.Empty(Split().StepOf);
        Assert.Empty(Split().Findings);
    }

    /// <summary>Three exposures again under a filter of three stops: those frames are a step of their own, named after the light they are.</summary>
    [Fact]
    public void FilterOverSomeExposures_IsAStepOfItsOwn()
    {
        Bracket(light: 1, stops: 6, each: 2);
        Add(FrameRole.Metered, 0.04, 1, 1);
        LevelStatistics[] filtered = [Add(FrameRole.Bracket, 0.02, 0.125, 0.125), Add(FrameRole.Bracket, 0.04, 0.125, 0.125), Add(FrameRole.Bracket, 0.08, 0.125, 0.125)];

        LightSplit split = Split();

        Finding finding = Assert.Single(split.Findings);
        Assert.Equal((FindingCode.LightStepped, FindingSeverity.Note), (finding.Code, finding.Severity));
        Assert.Equal(3, finding.Size!.Value, 0.01);
        Assert.Contains("by -3.0 stops", finding.Message, StringComparison.Ordinal);
        Assert.Equal(filtered.SelectMany(l => l.Level.Frames), split.StepOf.Keys);
        Assert.All(split.StepOf.Values, step => Assert.Equal("light 2", step));
    }

    [Fact]
    public void MeteredFramesInAnotherLightThanTheBracket_AreRefused()
    {
        Bracket(light: 1, stops: 6, each: 2);
        Add(FrameRole.Metered, 0.04, 4, 4);

        Finding finding = Assert.Single(Split().Findings);
        Assert.Equal(FindingSeverity.Refusal, finding.Severity);
        Assert.Contains("in another light than the bracket", finding.Message, StringComparison.Ordinal);
    }

    /// <summary>What was metered in each of two lights stands at the same signal; nobody knows what the meter saw where it does not.</summary>
    [Theory]
    [InlineData(0.7, FindingSeverity.Note)]
    [InlineData(0.8, FindingSeverity.Refusal)]
    public void MeteredFramesInTwoLights_AreReadingsOfBothUpToThreeQuartersOfAStop(double apartEv, FindingSeverity severity)
    {
        Bracket(light: 1, stops: 6, each: 2);
        Bracket(light: 0.125, stops: 6, each: 1);
        Add(FrameRole.Metered, 0.04, 1, 1);
        Add(FrameRole.Metered, 0.32 * Math.Pow(2, apartEv), 0.125, 0.125);

        Finding finding = Assert.Single(Split().Findings);

        Assert.Equal(severity, finding.Severity);
        Assert.Equal(severity == FindingSeverity.Refusal, finding.Message.Contains("in several lights", StringComparison.Ordinal));
    }

    /// <summary>A frame too dark to tell its light is of that of its neighbours in time; without times, of the light that most have.</summary>
    [Theory]
    [InlineData(true, true)]
    [InlineData(false, false)]
    public void DarkFrameAmongFilteredOnes_IsOfTheirsWhereTimesAreKnown(bool hasTimes, bool isFiltered)
    {
        Bracket(light: 1, stops: 6, each: 3, hasTimes);
        Add(FrameRole.Metered, 0.04, hasTimes, 1, 1);
        Add(FrameRole.Bracket, 0.02, hasTimes, 0.125, 0.125);
        LevelStatistics dim = Add(FrameRole.Bracket, 2e-6, hasTimes, 0.5);
        Add(FrameRole.Bracket, 0.04, hasTimes, 0.125, 0.125);

        Assert.Equal(isFiltered, Split().StepOf.ContainsKey(dim.Level.Frames[0]));
    }

    private LightSplit Split() => LightSplit.Of(_levels);

    private void Bracket(double light, int stops, int each, bool hasTimes = true)
    {
        for (int i = 0; i < stops; i++)
        {
            Add(FrameRole.Bracket, 0.005 * (1 << i), hasTimes, [.. Enumerable.Repeat(light, each)]);
        }
    }

    private LevelStatistics Add(FrameRole role, double seconds, params double[] lights) => Add(role, seconds, true, lights);

    /// <summary>Frames of even light: 100 000 DN a second in light 1, and four codes of disorder.</summary>
    private LevelStatistics Add(FrameRole role, double seconds, bool hasTimes, params double[] lights)
    {
        RawFrame raw = MadeUpLevel.Frame(Height, Width, ColourFilterArray.Monochrome, BlackDn);
        DateTimeOffset start = new(2026, 6, 1, 12, 0, 0, TimeSpan.Zero);
        SetFrame[] frames = [.. lights.Select(_ => new SetFrame
        {
            File = $"{role}/{_taken:D3}.dng",
            Raw = hasTimes ? raw with { Metadata = raw.Metadata with { CaptureTime = start.AddSeconds(_taken) } } : raw,
            ContentKey = (ulong)_taken++,
        })];
        ushort[][] codes = [.. lights.Select(light => (ushort[])[.. Enumerable.Range(0, Width * Height).Select(i => (ushort)Math.Min(60_000, BlackDn + (100_000 * seconds * light) + (i * 7 % 4)))])];
        LevelStatistics level = MadeUpLevel.Measure(new Level(new LevelKey(100, role, seconds, null, null, null), frames), codes, MeasurementArea.Of(raw.Layout));
        _levels.Add(level);
        return level;
    }
}
