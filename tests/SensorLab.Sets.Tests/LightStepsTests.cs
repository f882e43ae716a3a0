
namespace SensorLab.Sets.Tests;

/// <summary>Lights told by the signal alone.</summary>
public sealed class LightStepsTests
{
    private const double RangeDn = 14_000;
    private const double UnsteadyDn = 0.5;

    /// <summary>Electrons of the bracket's light in DN per second.</summary>
    private const double LightDn = 50_000;

    [Fact]
    public void Of_OneLightFromShadowToClip_IsOne() => Assert.Single(LightSteps.Of(Bracket()).Groups);

    [Theory]
    [InlineData(-4)]
    [InlineData(-6)]
    [InlineData(-8)]
    public void Of_FilterAtTimesThatClipInTheOpen_AreTwoLights(double stops)
    {
        LightReading[] open = Bracket();
        LightReading[] filtered = [.. open.Where(f => f.ExposureSeconds >= 0.5).SelectMany(f => new[] { Reading(100, f.ExposureSeconds, stops), Reading(101, f.ExposureSeconds, stops) })];

        var steps = LightSteps.Of([.. open, .. filtered]);

        Assert.Equal(2, steps.Groups.Count);
        Assert.All(filtered, f => Assert.Equal(1, steps.GroupOf(f)));
        Assert.All(open, f => Assert.Equal(0, steps.GroupOf(f)));
    }

    [Fact]
    public void Of_OneStrayFrameAtATimeThatClipsInTheOpen_IsALightOfItsOwn()
    {
        LightReading[] open = Bracket();
        LightReading stray = Reading(100, 0.5, -2);

        var steps = LightSteps.Of([.. open, stray]);

        Assert.Equal(1, steps.GroupOf(stray));
    }

    /// <summary>Between two lights, and at a time of neither: not to be joined with the dimmer one for want of a frame to compare.</summary>
    [Fact]
    public void Of_StrayFrameBetweenTheOpenLightAndAFaintFilter_IsALightOfItsOwn()
    {
        LightReading[] open = Bracket();
        LightReading[] faint = [.. new[] { 1 / 64.0, 1 / 32.0, 1 / 16.0 }.Select((seconds, i) => Reading(200 + i, seconds, -6))];
        LightReading stray = Reading(100, 0.5, -2.6);

        var steps = LightSteps.Of([.. open, .. faint, stray]);

        Assert.Equal(1, steps.GroupOf(stray));
        Assert.All(faint, f => Assert.Equal(2, steps.GroupOf(f)));
    }

    /// <summary>What black makes of faint frames is no light.</summary>
    [Theory]
    [InlineData(0.4)]
    [InlineData(-0.4)]
    [InlineData(30)]
    public void Of_BlackThatIsOff_IsOneLight(double offDn)
    {
        LightReading[] open = [.. Bracket().Select(f => f with { SignalDn = f.ClipsSome ? f.SignalDn : f.SignalDn + offDn })];

        Assert.Single(LightSteps.Of(open).Groups);
    }

    // Thirds of a stop, two frames each, from a few DN to well past the clip.
    private static LightReading[] Bracket() =>
        [.. Enumerable.Range(-40, 44).SelectMany((thirds, i) => new[] { Reading(2 * i, Math.Pow(2, thirds / 3.0), 0), Reading((2 * i) + 1, Math.Pow(2, thirds / 3.0), 0) })];

    private static LightReading Reading(int order, double seconds, double stops)
    {
        double signal = LightDn * seconds * Math.Pow(2, stops);
        return new LightReading(order, seconds, Math.Min(signal, RangeDn), UnsteadyDn, RangeDn, ClipsSome: signal > RangeDn);
    }
}
