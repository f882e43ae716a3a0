using SensorLab.Profiles;
using SensorLab.TestData;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Law.Tests;

public sealed class FigureBudgetsTests
{
    private const double StepEv = 1.0 / 3;

    // Of 200,000 draws the share within 95 % has a standard deviation of 0.05 %.
    private const int Draws = 200_000;
    private const double ShareTolerance = 0.0025;

    private static readonly IsoProfile Measured = SampleProfiles.ThreeIsos().IsoProfiles[0];

    [Fact]
    public void Half_OfARectangleAlone_IsNinetyFivePercentOfIt() => Assert.Equal(0.95 / 6, BudgetInterval.Half(0, 1.0 / 6), 1e-12);

    [Fact]
    public void Half_WithoutARectangle_IsThatOfTheRest() => Assert.Equal(0.2, BudgetInterval.Half(0.2, 0));

    [Theory]
    [InlineData(0.02, 0.16)]
    [InlineData(0.1, 0.1)]
    [InlineData(0.3, 0.05)]
    public void Half_OfARectangleAndANormal_HoldsNinetyFivePercentOfTheirSums(double deviation, double rectangle)
    {
        double half = BudgetInterval.Half(Figure.NormalFactor95 * deviation, rectangle);

        var random = new Random(7);
        int held = 0;
        for (int i = 0; i < Draws; i++)
        {
            held += Math.Abs((deviation * Normal(random)) + (rectangle * ((2 * random.NextDouble()) - 1))) <= half ? 1 : 0;
        }

        Assert.Equal(0.95, held / (double)Draws, ShareTolerance);
    }

    [Fact]
    public void Complete_OfAMeteredIso_NamesEveryPartAndHoldsTheSamplingsInterval()
    {
        Figure above = FigureBudgets.Complete(Measured, StepEv).Latitude.AboveEv!;

        FigureBudget budget = above.Budget!;
        Assert.Equal(["sampling", "meter", "shutter", "light", "aperture", "temperature"], budget.Parts.Select(p => p.Source));
        Assert.Equal(budget.StandardUncertainty * budget.StandardUncertainty, budget.Parts.Sum(p => p.StandardUncertainty * p.StandardUncertainty), 1e-12);
        Assert.Equal(StepEv / Math.Sqrt(12), budget.Parts[1].StandardUncertainty, 1e-12);
        Assert.Equal(above.StandardUncertainty, budget.Parts[0].StandardUncertainty);
        Assert.True(budget.Lower95 < above.Lower95 && budget.Upper95 > above.Upper95);
        Assert.Equal(Measured.Latitude.AboveEv, above with { Budget = null });
    }

    /// <summary>What temperature does to a figure: shares of it but for black, and those of a noise or a signal as stops.</summary>
    [Fact]
    public void Complete_OfAnIso_HasTheProtocolsTypicalTemperature()
    {
        IsoProfile complete = FigureBudgets.Complete(Measured, StepEv);
        ChannelProfile channel = complete.Channels[0];
        (Figure? Figure, double Typical)[] figures =
        [
            (channel.BlackLevelDn, 0.02),
            (channel.GainElectronPerDn, 0.001 * channel.GainElectronPerDn!.Value!.Value),
            (channel.ReadNoiseElectron, 0.0025 * channel.ReadNoiseElectron!.Value!.Value),
            (channel.ReadNoiseDn, 0.0025 * channel.ReadNoiseDn!.Value!.Value),
            (channel.SaturationDn, 0.0005 * channel.SaturationDn!.Value!.Value),
            (channel.SaturationElectron, double.Hypot(0.0005, 0.001) * channel.SaturationElectron!.Value!.Value),
            (complete.Latitude.AboveEv, 0.0005 / Math.Log(2)),
            (complete.Latitude.BelowEv[0].PerPixel, 0.0025 / Math.Log(2)),
            (complete.Latitude.BelowEv[0].SpanEv, 0.0025 / Math.Log(2)),
        ];

        Assert.All(figures, f => Assert.Equal(f.Typical, f.Figure!.Budget!.Parts.Single(p => p.Source == "temperature").StandardUncertainty, 1e-4 * f.Typical));
    }

    /// <summary>Everything that counts stops from middle grey moves with it one to one.</summary>
    [Fact]
    public void Complete_OfFiguresInStopsFromGrey_HasTheMetersPartWhole()
    {
        Figure bands = Figure.Estimate(6, 0.05, 5.9, 6.1);
        IsoProfile complete = FigureBudgets.Complete(Measured with { Latitude = Measured.Latitude with { BandsEndEv = bands } }, StepEv);

        Figure?[] figures =
        [
            complete.Latitude.BandsEndEv, complete.Latitude.FirstClipEv, complete.Channels[0].Latitude.FirstClipEv, complete.Previews[0].ClipEv,
            .. complete.Latitude.BelowEv.Concat(complete.Channels[0].Latitude.BelowEv).SelectMany(e => new[] { e.PerPixel, e.AtDelivery }),
        ];
        FigureBudget[] budgets = [.. figures.Select(f => f?.Budget).OfType<FigureBudget>()];
        Assert.True(budgets.Length > 4);
        Assert.All(budgets, b => Assert.Equal(StepEv / Math.Sqrt(12), b.Parts.Single(p => p.Source == "meter").StandardUncertainty, 1e-12));
    }

    [Fact]
    public void Complete_OfAPreviewsClip_HasWhatMovesMiddleGrey() => Assert.Contains(
        FigureBudgets.Complete(Measured, StepEv).Previews[0].ClipEv!.Budget!.Parts, p => p.Source == "meter");

    // One reading lies anywhere within the step: 95 % of it lies within 0.475 steps, a normal distribution's factor would say 0.566.
    [Fact]
    public void Complete_OfOneReading_TakesTheStepForARectangle()
    {
        Figure above = FigureBudgets.Complete(Measured with { MeterReadings = 1 }, StepEv).Latitude.AboveEv!;

        Assert.InRange(above.Budget!.Upper95 - above.Value!.Value, 0.475 * StepEv, 0.49 * StepEv);
    }

    [Fact]
    public void Complete_OfMoreReadings_IsSurer()
    {
        Figure one = FigureBudgets.Complete(Measured with { MeterReadings = 1 }, StepEv).Latitude.AboveEv!;
        Figure four = FigureBudgets.Complete(Measured with { MeterReadings = 4 }, StepEv).Latitude.AboveEv!;

        Assert.True(four.Budget!.StandardUncertainty < 0.6 * one.Budget!.StandardUncertainty);
    }

    [Fact]
    public void Complete_OfMeterFreeFigures_LeavesTheMeterOut()
    {
        IsoProfile completed = FigureBudgets.Complete(Measured, StepEv);

        FigureBudget[] budgets =
        [
            completed.Channels[0].BlackLevelDn!.Budget!, completed.Channels[0].GainElectronPerDn!.Budget!, completed.Channels[0].ReadNoiseElectron!.Budget!,
            completed.Channels[0].SaturationDn!.Budget!, completed.Channels[0].Latitude.BelowEv[0].SpanEv!.Budget!,
        ];
        Assert.All(budgets, b => Assert.Equal(["sampling", "temperature"], b.Parts.Select(p => p.Source)));
    }

    [Fact]
    public void Complete_WhereGreyIsByDefinition_HasNoMeterShutterOrLamp() =>
        Assert.Equal(["sampling", "temperature"], FigureBudgets.Complete(Measured, null).Latitude.AboveEv!.Budget!.Parts.Select(p => p.Source));

    [Fact]
    public void Complete_OfLevelsThatScatter_TellsTheShutterFromTheSet()
    {
        IsoProfile scattered = Measured with
        {
            Levels = [.. Measured.Levels.Select((l, i) => l.Role == "bracket" ? l with { ExposureSeconds = l.ExposureSeconds * (1 + (0.03 * ((i % 2) - 0.5))) } : l)],
        };

        BudgetPart shutter = FigureBudgets.Complete(scattered, StepEv).Latitude.AboveEv!.Budget!.Parts.Single(p => p.Source == "shutter");

        // Half the levels lie 1.5 % above their times and half below: 0.0216 EV, by few levels.
        Assert.Equal("set", shutter.From);
        Assert.InRange(shutter.StandardUncertainty, 0.015, 0.04);
    }

    /// <summary>Without a bracket the protocol's typical values stand: 1 % at the most of a second's exposure, lamp and diaphragm, evenly spread.</summary>
    [Fact]
    public void Complete_WithoutABracket_HasTheProtocolsShutterLampAndDiaphragm()
    {
        LevelRecord metered = Measured.Levels.First(l => l.Role == "metered") with { ExposureSeconds = 1 / 40.0, Frames = 2 };
        IsoProfile alone = Measured with { Levels = [metered], MeterReadings = 1 };

        BudgetPart[] parts = [.. FigureBudgets.Complete(alone, StepEv).Latitude.AboveEv!.Budget!.Parts];

        const double relative = 0.01 / 1.7320508;
        double Part(string source) => parts.Single(p => p.Source == source).StandardUncertainty;
        Assert.Equal(double.Hypot(relative, 2.5e-6 * 40) / Math.Log(2), Part("shutter"), 1e-8);
        Assert.Equal(relative / Math.Log(2), Part("light"), 1e-8);
        Assert.Equal(relative / Math.Sqrt(2) / Math.Log(2), Part("aperture"), 1e-8);
    }

    /// <summary>Readings at both edges of the meter's zero lie a step apart; half a step beyond that, their own scatter stands.</summary>
    [Theory]
    [InlineData(1.4, "protocol")]
    [InlineData(1.6, "set")]
    public void Complete_OfReadingsThatTheStepDoesNotExplain_HasTheirOwnScatter(double steps, string from)
    {
        LevelRecord metered = Measured.Levels.First(l => l.Role == "metered");
        LevelRecord brighter = metered with
        {
            ExposureSeconds = 2 * metered.ExposureSeconds,
            Channels = [.. metered.Channels.Select(c => c with { SpotMeanDn = Brighter(c.SpotMeanDn ?? c.MeanDn, c.Name, steps * StepEv) })],
        };

        BudgetPart meter = FigureBudgets.Complete(Measured with { Levels = [.. Measured.Levels, brighter], MeterReadings = 2 }, StepEv).Latitude.AboveEv!.Budget!.Parts.Single(p => p.Source == "meter");

        Assert.Equal(from, meter.From);
        Assert.Equal(from == "set" ? steps * StepEv / 2 : StepEv / Math.Sqrt(24), meter.StandardUncertainty, 1e-9);
    }

    private static double Brighter(double meanDn, string channel, double ev)
    {
        double black = Measured.Channels.Single(c => c.Name == channel).BlackLevelDn!.Value!.Value;
        return black + ((meanDn - black) * Math.Pow(2, ev));
    }

    [Fact]
    public void Complete_OfABound_LeavesItABound()
    {
        IsoProfile bounded = Measured with { Latitude = Measured.Latitude with { AboveEv = Figure.LowerBound(3) } };

        Assert.Equal(Figure.LowerBound(3), FigureBudgets.Complete(bounded, StepEv).Latitude.AboveEv);
    }
}
