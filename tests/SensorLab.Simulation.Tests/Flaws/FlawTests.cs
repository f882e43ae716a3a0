using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Tests.Flaws;

public sealed class FlawTests
{
    private const double Exact = 1e-9;

    [Fact]
    public void LightFlicker_OfThreePercent_MovesEachLitFrameByThatMuch()
    {
        double[] ratios = [.. LightRatios("light-flicker=0.03", FrameRole.Bracket)];
        double deviation = Math.Sqrt(ratios.Average(ratio => (ratio - 1) * (ratio - 1)));

        // About 120 draws: the deviation is known to 1/√240 = 6.5 %, taken three times.
        Assert.InRange(deviation, 0.03 * 0.8, 0.03 * 1.2);
        Assert.NotEqual(ratios[0], ratios[1]);
    }

    [Fact]
    public void LightDrift_OfAThirdOfAStop_RunsEvenlyOverTheBracket()
    {
        double[] ev = [.. LightRatios("light-drift=0.3", FrameRole.Bracket, 100).Select(Math.Log2)];
        Assert.Equal(0, ev[0], Exact);
        Assert.Equal(0.3, ev[^1], Exact);
        Assert.All(ev.Zip(ev.Skip(1)), pair => Assert.Equal(0.3 / (ev.Length - 1), pair.Second - pair.First, Exact));
    }

    [Fact]
    public void ExposureInexact_FramesOfALevel_AreOffAlike()
    {
        double[] ratios = [.. LightRatios("exposure-inexact=0.1", FrameRole.Bracket, 100)];
        for (int i = 0; i < ratios.Length; i += 2)
        {
            Assert.Equal(ratios[i], ratios[i + 1], Exact);
        }

        Assert.True(ratios.Distinct().Count() > ratios.Length / 3);
        Assert.All(LightRatios("exposure-inexact=0.1", FrameRole.Metered), ratio => Assert.Equal(1, ratio, Exact));
    }

    [Fact]
    public void LightBanded_LongExposure_AveragesTheBandsAwayAndShortOnesDoNot()
    {
        RehearsalPlan plan = FlawStage.Plan("light-banded=0.5");
        PlannedFrame[] bracket = [.. plan.Frames.Where(frame => frame.Role == FrameRole.Bracket && frame.Exposure.Setting.Iso == 100)];
        Assert.InRange(bracket[0].Exposure.RowLight!.Max(), 1.45, 1.5);

        // An exposure of t seconds leaves at most 2A/(2π·100·t) of the amplitude A.
        PlannedFrame longest = bracket[^1];
        double left = 2 * 0.5 / (2 * Math.PI * 100 * longest.Exposure.ExposureSeconds);
        Assert.InRange(longest.Exposure.RowLight!.Max(), 1, 1 + left);
        Assert.NotEqual(bracket[0].Exposure.RowLight, bracket[1].Exposure.RowLight);
    }

    [Fact]
    public void TargetTextured_OfTwoPercent_HasThatDeviationInEveryFrame()
    {
        RehearsalPlan plan = FlawStage.Plan("target-textured=0.02");
        float[] texture = plan.Frames[^1].Exposure.Texture!;
        Assert.Same(texture, plan.Frames[20].Exposure.Texture);
        double mean = texture.Average(value => (double)value);
        Assert.Equal(1, mean, 1e-6);
        Assert.Equal(0.02, Math.Sqrt(texture.Average(value => (value - mean) * (value - mean))), 1e-6);
    }

    [Fact]
    public void PixelsHot_Twelve_StandOutInDarkFramesAtTheSamePlaces()
    {
        RehearsalPlan plan = FlawStage.Plan("pixels-hot=12");
        int[][] hot = [.. plan.Frames.Take(2).Select(frame => plan.Expose(frame).Index().Where(site => site.Item > 650).Select(site => site.Index).ToArray())];
        Assert.Equal(12, hot[0].Length);
        Assert.Equal(hot[0], hot[1]);
    }

    [Fact]
    public void BlackDrift_OfThreeCodes_RisesAndLeavesTheDarksOnTheBodysBlack()
    {
        PlannedFrame[] frames = [.. FlawStage.Plan("black-drift=3").Frames.Where(frame => frame.Exposure.Setting.Iso == 200)];
        double[] shift = [.. frames.Select(frame => frame.Exposure.BlackShiftDn)];
        Assert.Equal(3, shift[^1] - shift[0], Exact);
        Assert.All(shift.Zip(shift.Skip(1)), pair => Assert.True(pair.Second > pair.First));
        Assert.Equal(0, frames.Where(frame => frame.Role == FrameRole.Dark).Average(frame => frame.Exposure.BlackShiftDn), Exact);
    }

    [Fact]
    public void DarkLit_OfTwentyCodes_LightsTheLongestDarks()
    {
        RehearsalPlan plan = FlawStage.Plan("dark-lit=20");
        PlannedFrame longest = plan.Frames.Last(frame => frame.Role == FrameRole.Dark && frame.Exposure.Setting.Iso == 100);
        ushort[] codes = plan.Expose(longest);
        double green = Enumerable.Range(0, 48 * 32).Where(i => ((i / 48) + i) % 2 == 1).Average(i => codes[i]);

        // 768 greens of noise 3 DN: 0.11, taken five times.
        Assert.InRange(green - 512.25, 19.4, 20.6);
    }

    [Fact]
    public void FrameDuplicate_Level_HasThePixelsOfOneFrame()
    {
        RehearsalPlan plan = FlawStage.Plan("frame-duplicate=2");
        int same = plan.Frames.GroupBy(frame => string.Join(',', plan.Expose(frame))).Count(group => group.Count() == 2 && group.All(frame => frame.Exposure.LightElectron < 20_000));
        Assert.Equal(2, same);
        Assert.Equal(plan.Frames.Count, plan.Frames.Select(frame => frame.File).Distinct().Count());
    }

    [Theory]
    [InlineData("dark-missing", FrameRole.Dark, 4)]
    [InlineData("metered-missing", FrameRole.Metered, 4)]
    [InlineData("dark-missing=2", FrameRole.Dark, 0)]
    public void Missing_Role_IsGoneAtTheFirstIsos(string flaw, FrameRole role, int left)
    {
        PlannedFrame[] frames = [.. FlawStage.Plan(flaw).Frames.Where(frame => frame.Role == role)];
        Assert.Equal(left, frames.Length);
        Assert.All(frames, frame => Assert.Equal(200, frame.Exposure.Setting.Iso));
    }

    [Fact]
    public void MeteredMissing_Truth_HasNoMiddleGreyThere()
    {
        IReadOnlyList<IsoTruth> truth = RehearsalTruth.Of(FlawStage.Plan("metered-missing"));
        Assert.Null(truth[0].AboveEv);
        Assert.Empty(truth[0].BelowEv);
        Assert.NotNull(truth[1].AboveEv);
    }

    [Fact]
    public void SaturationNotReached_HalfAStop_EndsBelow()
    {
        RehearsalPlan plan = FlawStage.Plan("saturation-not-reached=0.5");
        double brightest = plan.Frames.Where(frame => frame.Exposure.Setting.Iso == 100 && frame.Role == FrameRole.Bracket).Max(frame => frame.Exposure.LightElectron);
        Assert.InRange(Math.Log2(40_000 / brightest), 0.5, 1);
    }

    [Fact]
    public void LevelsTooFew_Three_AreLeft()
    {
        RehearsalPlan plan = FlawStage.Plan("levels-too-few=3");
        Assert.Equal(6, plan.Frames.Where(frame => frame.Role == FrameRole.Bracket).Select(frame => frame.Exposure.LightElectron).Distinct().Count());
    }

    [Theory]
    [InlineData("frame-unassigned", 1)]
    [InlineData("frame-incomplete=2", 2)]
    [InlineData("frame-size-differs", 1)]
    [InlineData("frame-unsuitable", 1)]
    [InlineData("frame-unreadable=3", 3)]
    public void FurtherFrames_OddOnes_LeaveEveryOtherFrameAsItWas(string flaw, int odd)
    {
        PlannedFrame[] clean = [.. FlawStage.Plan().Frames];
        PlannedFrame[] flawed = [.. FlawStage.Plan(flaw).Frames];
        Assert.Equal(clean.Length + odd, flawed.Length);
        Assert.Equal(clean.Select(frame => frame.File), flawed.Where(frame => frame.Number <= clean.Length).Select(frame => frame.File));
        Assert.Equal(flawed.Length, flawed.Select(frame => frame.Exposure.FrameNumber).Distinct().Count());
    }

    [Fact]
    public void FrameUnreadable_FromMemory_IsAMalformedFile()
    {
        RehearsalPlan plan = FlawStage.Plan("frame-unreadable");
        PlannedFrame odd = plan.Frames.MaxBy(frame => frame.Number)!;
        Assert.Throws<MalformedFileException>(() => plan.Open(odd));
        RehearsalPlan reduced = FlawStage.Plan("frame-unsuitable");
        UnsupportedFileException error = Assert.Throws<UnsupportedFileException>(() => reduced.Open(reduced.Frames.MaxBy(frame => frame.Number)!));
        Assert.True(error.IsUnsuitable);
    }

    [Fact]
    public void FrameSizeDiffers_Frame_IsHalfAsWide()
    {
        RehearsalPlan plan = FlawStage.Plan("frame-size-differs");
        using IMosaicReader reader = plan.Open(plan.Frames.MaxBy(frame => frame.Number)!);
        Assert.Equal(24, reader.Frame.Layout.WidthPixels);
        var codes = new ushort[24 * 16];
        reader.ReadRows(codes);
        Assert.DoesNotContain((ushort)0, codes);
    }

    [Fact]
    public void NoiseBanded_Truth_HoldsTheRowNoiseInTheReadNoise()
    {
        IsoTruth clean = RehearsalTruth.Of(FlawStage.Plan())[0];
        IsoTruth banded = RehearsalTruth.Of(FlawStage.Plan("noise-banded=2"))[0];
        Assert.Equal((clean.ReadNoiseElectron * clean.ReadNoiseElectron) + 4, banded.ReadNoiseElectron * banded.ReadNoiseElectron, Exact);
        Assert.Equal(2, banded.RowNoiseElectron);
    }

    [Fact]
    public void NoiseBelowStep_AQuarter_IsThatMuchOfACode()
    {
        IsoTruth truth = RehearsalTruth.Of(FlawStage.Plan("noise-below-step=0.25"))[0];
        Assert.Equal(0.25, truth.ReadNoiseElectron / truth.GainElectronPerDn, Exact);
    }

    [Fact]
    public void RawFiltered_Neighbours_Correlate()
    {
        Assert.InRange(NeighbourCorrelation(FlawStage.Plan()), -0.15, 0.15);
        Assert.True(NeighbourCorrelation(FlawStage.Plan("raw-filtered=0.4")) > 0.25);
    }

    // A wavering response moves the middle by its size, and a full well not at all.
    [Fact]
    public void ModelRejected_OfAFifth_LeavesWhatIsFull()
    {
        RehearsalPlan plan = FlawStage.Plan("model-rejected=0.2");
        RehearsalPlan steady = FlawStage.Plan();
        PlannedFrame full = plan.Frames.Where(f => f.Role == FrameRole.Bracket && f.Exposure.Setting.Iso == 100).MaxBy(f => f.Exposure.LightElectron)!;
        PlannedFrame metered = plan.Frames.First(f => f.Role == FrameRole.Metered && f.Exposure.Setting.Iso == 100);

        Assert.Equal(steady.Expose(steady.Frames.Single(f => f.File == full.File)), plan.Expose(full));
        double[] off = [.. plan.Expose(metered).Zip(steady.Expose(steady.Frames.Single(f => f.File == metered.File)), (own, other) => (own - other) / (other - 512.25))];
        Assert.InRange(Math.Sqrt(off.Average(o => o * o)), 0.19, 0.21);
    }

    [Fact]
    public void GainDigital_HighestIso_HasGapsAndTheGainOfTheTruth()
    {
        RehearsalOptions options = FlawStage.Options with { WidthPixels = 300, HeightPixels = 200 };
        RehearsalPlan plan = FlawStage.Plan(options, "gain-digital=2");
        VirtualIso setting = plan.Camera.Body.At(200);
        PlannedFrame lit = plan.Frames.First(frame => frame.Role == FrameRole.Metered && frame.Exposure.Setting.Iso == 200);
        ushort[] codes = plan.Expose(lit);
        int[] histogram = new int[16_384];
        foreach (ushort code in codes)
        {
            histogram[code]++;
        }

        double green = Enumerable.Range(0, codes.Length).Where(i => ((i / 300) + i) % 2 == 1).Average(i => codes[i]) - 512.25;
        double expected = lit.Exposure.LightElectron / setting.GainElectronPerDn;
        Assert.InRange(green / expected, 0.998, 1.002);

        // About the greens' mean every second code is met dozens of times, the others never.
        int from = (int)(expected + 512.25) - 50;
        Assert.Equal(50, Enumerable.Range(from, 100).Count(code => histogram[code] > 0));
        Assert.Equal(1.3, setting.GainElectronPerDn, Exact);
        Assert.DoesNotContain(plan.Frames, frame => frame.Exposure.Setting is { Iso: 100, DigitalFactor: > 1 });
    }

    [Fact]
    public void RawCompanded_File_StoresIndicesOfItsTable()
    {
        RehearsalPlan plan = FlawStage.Plan("raw-companded=16");
        PlannedFrame frame = plan.Frames[^1];
        ushort[] codes = plan.Expose(frame);
        var dng = new Writing.MinimalDng(SensorLab.Simulation.Writing.DngWriter.Encode(frame.Raw, codes, frame.Form));
        double[] table = dng.Raw[50712];
        Assert.True(table.Length < 4096);
        Assert.Equal(16_383, table[^1]);
        Assert.Equal(codes, dng.Unpack(dng.Blocks()[0], 48).Select(stored => (ushort)table[stored]));
        Assert.True(frame.Raw.IsCompanded);
    }

    [Fact]
    public void ResponseNonlinear_FivePercent_CompressesButKeepsTheExposureThatSaturates()
    {
        RehearsalPlan plan = FlawStage.Plan("response-nonlinear=0.05");
        IsoTruth truth = RehearsalTruth.Of(plan)[0];
        IsoTruth clean = RehearsalTruth.Of(FlawStage.Plan())[0];
        Assert.Equal(0.95 * clean.SaturationDn, truth.SaturationDn, Exact);
        Assert.Equal(clean.AboveEv!.Value, truth.AboveEv!.Value, Exact);
        PlannedFrame brightest = plan.Frames.Last(frame => frame.Exposure.Setting.Iso == 100);
        double green = Enumerable.Range(0, 48 * 32).Where(i => ((i / 48) + i) % 2 == 1).Average(i => plan.Expose(brightest)[i]) - 512.25;
        Assert.InRange(green / truth.SaturationDn, 0.9999, 1.0001);
    }

    [Fact]
    public void LevelsDeclared_EightAbove_IsWhatFilesSayAndNotWhatIs()
    {
        RehearsalPlan plan = FlawStage.Plan("levels-declared=8");
        Assert.All(plan.Frames, frame => Assert.Equal(520.25, frame.Raw.Declared.BlackDn[SensorChannel.R]));
        Assert.Equal(512.25, RehearsalTruth.Of(plan)[0].BlackLevelDn);
    }

    [Theory]
    [InlineData("body-mixed")]
    [InlineData("firmware-mixed")]
    [InlineData("mode-mixed")]
    [InlineData("lens-setting-mixed")]
    public void Mixed_Metadata_DiffersBetweenLevelsNotWithin(string flaw)
    {
        PlannedFrame[] bracket = [.. FlawStage.Plan(flaw).Frames.Where(frame => frame.Role == FrameRole.Bracket)];
        var saying = bracket.Select(frame => (frame.Exposure.Setting.Iso, frame.Exposure.ExposureSeconds, Said: (frame.Raw.Metadata.SerialNumber, frame.Raw.Metadata.Firmware, frame.Raw.Metadata.ApertureFNumber, frame.Raw.Metadata.Mode.Name))).ToArray();
        Assert.Equal(2, saying.Select(frame => frame.Said).Distinct().Count());
        Assert.All(saying.GroupBy(frame => (frame.Iso, frame.ExposureSeconds)), level => Assert.Single(level.Select(frame => frame.Said).Distinct()));
    }

    private static IEnumerable<double> LightRatios(string flaw, FrameRole role, int? iso = null) =>
        FlawStage.Plan().Frames.Zip(FlawStage.Plan(flaw).Frames)
            .Where(pair => pair.First.Role == role && (iso is null || pair.First.Exposure.Setting.Iso == iso))
            .Select(pair => pair.Second.Exposure.LightElectron / pair.First.Exposure.LightElectron);

    private static double NeighbourCorrelation(RehearsalPlan plan)
    {
        PlannedFrame[] metered = [.. plan.Frames.Where(frame => frame.Role == FrameRole.Metered).Take(2)];
        ushort[] a = plan.Expose(metered[0]);
        ushort[] b = plan.Expose(metered[1]);
        double[] difference = [.. a.Zip(b, (x, y) => (double)x - y)];
        double mean = difference.Average();
        double variance = difference.Sum(value => (value - mean) * (value - mean));
        double product = Enumerable.Range(0, difference.Length)
            .Where(i => i % 48 < 46)
            .Sum(i => (difference[i] - mean) * (difference[i + 2] - mean));
        return product / variance;
    }
}
