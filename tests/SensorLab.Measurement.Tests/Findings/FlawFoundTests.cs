using SensorLab.FlawMatrix.Foreign;
using SensorLab.Frames;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Findings;
using SensorLab.Pixels.Tests;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Findings;

/// <summary>Each flaw at a severe size, rehearsed with known size, is found and named with its size.</summary>
public sealed class FlawFoundTests
{
    /// <summary>Sizes are single draws of a scatter, or bounds that a smaller region or slower readout lowers: within a third.</summary>
    private const double SizeTolerance = 1.0 / 3;

    [Theory]
    [InlineData("light-flicker", 0.03, FindingSeverity.Warning)]
    [InlineData("light-drift", 0.3, FindingSeverity.Warning)]
    [InlineData("exposure-inexact", 0.06, FindingSeverity.Note)]
    [InlineData("response-nonlinear", 0.05, FindingSeverity.Warning)]
    [InlineData("target-textured", 0.02, FindingSeverity.Warning)]
    [InlineData("pixels-hot", 40, FindingSeverity.Note)]
    [InlineData("field-glowing", 30, FindingSeverity.Note)]
    [InlineData("pixels-hot", 2000, FindingSeverity.Note)]
    [InlineData("target-textured", 0.006, FindingSeverity.Warning)]
    [InlineData("dark-lit", 5, FindingSeverity.Warning)]
    [InlineData("dark-current", 10, FindingSeverity.Note)]
    [InlineData("metered-doubtful", 0.7, FindingSeverity.Warning)]
    [InlineData("model-rejected", 0.01, FindingSeverity.Warning)]
    [InlineData("levels-declared", 8, FindingSeverity.Note)]
    [InlineData("noise-banded", 8, FindingSeverity.Note)]
    [InlineData("raw-filtered", 0.3, FindingSeverity.Warning)]
    [InlineData("channel-scaled", 0.12, FindingSeverity.Note)]
    [InlineData("black-clipped", 2, FindingSeverity.Warning)]
    [InlineData("depth-mixed", 2, FindingSeverity.Refusal)]
    [InlineData("gain-digital", 2, FindingSeverity.Note)]
    public void Flaw_OfKnownSize_IsNamedWithItsSize(string code, double size, FindingSeverity severity)
    {
        Finding finding = Single(RehearsedSet.Examine([Sized(code, size)]), code);

        Assert.Equal(severity, finding.Severity);
        Assert.Equal(100, finding.Iso);
        Assert.InRange(finding.Size!.Value, size * (1 - SizeTolerance), size * (1 + SizeTolerance));
    }

    [Theory]
    [InlineData(Patterns.SixBySixName)]
    [InlineData(Patterns.QuadName)]
    public void RawFiltered_LargePattern_IsNamedWithItsSize(string filters)
    {
        Finding finding = Single(RehearsedSet.Examine(["raw-filtered=0.3"], RehearsedSet.SmallBody with { ColourFilterArray = filters }), FindingCode.RawFiltered);

        Assert.Equal(FindingSeverity.Warning, finding.Severity);
        Assert.Contains("each pixel taking", finding.Message, StringComparison.Ordinal);
        Assert.InRange(finding.Size!.Value, 0.3 * (1 - SizeTolerance), 0.3 * (1 + SizeTolerance));
    }

    /// <summary>Each photosite takes a share from the four of its group: any two then have a correlation of (1 − (1 − s)²)/(1 + 3(1 − s)²).</summary>
    [Theory]
    [InlineData(0.1)]
    [InlineData(0.5)]
    public void RawFiltered_GroupsReadTogether_AreToldFromNoiseReduction(double share)
    {
        var binning = new ForeignFlaw("binned groups", "photosites of a group are read together in part (relative)", [FindingCode.RawFiltered], [share], scene => frame => ForeignScene.WithEffect(frame, (codes, layout) => Bin(codes, layout, share, scene.Own(frame))));

        Finding finding = Single(RehearsedSet.Examine(binning, share, RehearsedSet.SmallBody with { ColourFilterArray = Patterns.QuadName }), FindingCode.RawFiltered);

        double kept = (1 - share) * (1 - share);
        Assert.Contains("binning", finding.Message, StringComparison.Ordinal);
        Assert.InRange(finding.Size!.Value, 0.9 * (1 - kept) / (1 + (3 * kept)), 1.1 * (1 - kept) / (1 + (3 * kept)));
    }

    /// <summary>Cells of whole repeats are large in a small frame of 6 × 6: the corner is looked at all the same.</summary>
    [Theory]
    [InlineData(Patterns.SixBySixName)]
    [InlineData(Patterns.QuadName)]
    public void FieldGlowing_LargePattern_IsNamedWithItsCorner(string filters)
    {
        Finding finding = Single(RehearsedSet.Examine(["field-glowing=30"], RehearsedSet.SmallBody with { ColourFilterArray = filters, RowNoiseElectron = 0.3 }), FindingCode.FieldGlowing);

        Assert.Equal(FindingSeverity.Note, finding.Severity);
        Assert.Contains("the lower right corner", finding.Message, StringComparison.Ordinal);
    }

    // The body's, hence of no one ISO.
    [Fact]
    public void LinesDead_OneOfEachKind_AreNamedWithTheirPlaces()
    {
        Finding finding = Single(RehearsedSet.Examine(["lines-dead=3"]), FindingCode.LinesDead);

        Assert.Equal(FindingSeverity.Note, finding.Severity);
        Assert.Null(finding.Iso);
        Assert.Equal(3, finding.Size);
        Assert.Matches(@"column \d+ is dead", finding.Message);
        Assert.Matches(@"row \d+ answers 40.\d % weaker", finding.Message);
        Assert.Matches(@"column \d+ reads 40.\d DN higher without light", finding.Message);
    }

    [Fact]
    public void BlackDrift_OfTenDn_IsNamed()
    {
        // The rise runs over dark and lit frames; what shows is its difference from the dark frames' mean.
        Finding finding = Single(RehearsedSet.Examine(["black-drift=10"]), FindingCode.BlackDrift);

        Assert.InRange(finding.Size!.Value, 1, 10);
    }

    [Theory]
    [InlineData("RGGB")]
    [InlineData(Patterns.SixBySixName)]
    [InlineData(Patterns.QuadName)]
    public void LightBanded_PulsesOfAFifth_AreNamed(string filters)
    {
        // Two rolling frames may see the lamp in opposite phase: up to twice the amplitude in their difference.
        Finding finding = Single(RehearsedSet.Examine(["light-banded=0.2"], RehearsedSet.SmallBody with { ColourFilterArray = filters }), FindingCode.LightBanded);

        Assert.InRange(finding.Size!.Value, 0.1, 0.4);
    }

    [Fact]
    public void RawCompanded_StepsUpToEight_IsANoteWithTheWidestSeen()
    {
        // The widest step is at the largest code; the brightest level that does not clip lies well below it.
        Finding finding = Single(RehearsedSet.Examine(["raw-companded=8"]), FindingCode.RawCompanded);

        Assert.Equal(FindingSeverity.Note, finding.Severity);
        Assert.InRange(finding.Size!.Value, 4, 8);
    }

    [Fact]
    public void TargetUneven_CornersWithoutAThird_IsNamed()
    {
        // Measured over the whole frame in small blocks, whose means do not reach the very corner and centre.
        Finding finding = Single(RehearsedSet.Examine(["target-uneven=0.3"]), FindingCode.TargetUneven);

        Assert.InRange(finding.Size!.Value, 0.1, 0.3);
    }

    [Theory]
    [InlineData("gain-shared", 1600)]
    [InlineData("gain-switch=0.5", 400)]
    [InlineData("iso-disagrees=0.12", 400)]
    [InlineData("gain-digital=2", 1600)]
    public void FlawAcrossIsos_Rehearsed_IsNamedAtItsIso(string flaw, int iso)
    {
        Finding finding = Single(RehearsedSet.Examine([flaw], null, 1, 100, 400, 1600), flaw.Split('=')[0]);

        Assert.Equal(iso, finding.Iso);
    }

    [Fact]
    public void IsoDisagrees_ReadNoiseThatRises_IsNamedAtTheHigherIso()
    {
        VirtualBody body = RehearsedSet.SmallBody;
        body = body with { IsoSettings = [.. body.IsoSettings.Select(s => s.Iso == 400 ? s with { ReadNoiseElectron = 2 * body.At(100).ReadNoiseElectron } : s)] };

        Finding finding = Single(RehearsedSet.Examine([], body, 1, 100, 400), FindingCode.IsoDisagrees);

        Assert.Equal(400, finding.Iso);
        Assert.InRange(finding.Size!.Value, 1 - SizeTolerance, 1 + SizeTolerance);
    }

    [Fact]
    public void RawFiltered_KernelWeightOfAPercent_IsNamed() =>
        Single(RehearsedSet.Examine(["raw-filtered=0.04"]), FindingCode.RawFiltered);

    [Fact]
    public void TargetUneven_PartOfTheFieldLeftOut_IsNamedWithTheWholeFieldsUnevenness()
    {
        IsoEvidence evidence = RehearsedSet.Evidence([], new IsoOptions { FieldMissing = 0.4, SensorPixels = 4 * 240 * 160 })[0];

        Finding finding = Single(IsoChecks.Examine([evidence]), FindingCode.TargetUneven);

        Assert.Equal((FindingSeverity.Note, 0.4), (finding.Severity, finding.Size));
        Assert.Contains("25 % of the frame", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ChannelScaled_ByHalfAPercent_IsNamed() =>
        Single(RehearsedSet.Examine(["channel-scaled=0.005"]), FindingCode.ChannelScaled);

    [Fact]
    public void LightFlicker_Found_NamesItsFramesAndTheCompensation()
    {
        Finding finding = Single(RehearsedSet.Examine(["light-flicker=0.03"]), FindingCode.LightFlicker);

        Assert.NotEmpty(finding.Frames);
        Assert.Contains("Compensated", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ChannelScaled_BlueAlone_NamesTheChannel() =>
        Assert.Equal("B", Single(RehearsedSet.Examine(["channel-scaled=0.12"]), FindingCode.ChannelScaled).Channel);

    private static Finding Single(IReadOnlyList<Finding> findings, string code)
    {
        Finding[] found = [.. findings.Where(f => f.Code == code)];
        Assert.True(found.Length > 0, $"{code} was not found; found were {string.Join(", ", findings.Select(f => f.Code))}.");
        return found[0];
    }

    private static string Sized(string code, double size) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{code}={size}");

    private static void Bin(Span<ushort> codes, MosaicLayout layout, double share, Random random)
    {
        for (int y = 0; y < layout.HeightPixels; y += 2)
        {
            for (int x = 0; x < layout.WidthPixels; x += 2)
            {
                int[] group = [(y * layout.WidthPixels) + x, (y * layout.WidthPixels) + x + 1, ((y + 1) * layout.WidthPixels) + x, ((y + 1) * layout.WidthPixels) + x + 1];
                double mean = 0;
                foreach (int site in group)
                {
                    mean += codes[site] / 4.0;
                }

                foreach (int site in group)
                {
                    codes[site] = (ushort)Math.Floor(codes[site] + (share * (mean - codes[site])) + random.NextDouble());
                }
            }
        }
    }
}
