using SensorLab.FlawMatrix.Foreign;
using SensorLab.Law;
using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Response;
using SensorLab.Measurement.Tests.Findings;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Response;

/// <summary>What a response does beside its law, by laws that the estimator does not contain.</summary>
public sealed class ResponseResidualTests
{
    /// <summary>Signal at saturation of the rehearsed body in DN: 40 000 e⁻ at 2.6 e⁻/DN.</summary>
    private const double FullDn = 40_000 / 2.6;

    private const double GreyDn = FullDn / 8;

    /// <summary>Standard uncertainties within which the truth has to lie.</summary>
    private const double Deviations = 3;

    private static readonly VirtualBody Body = RehearsedSet.SmallBody with { Shutter = new ShutterSeries { StepsPerStop = 2 } };

    [Fact]
    public void Between_StraightResponse_IsNothingAndHardlyUncertain()
    {
        Estimate found = Of("late knee", 0).Between(GreyDn, FullDn);

        Assert.InRange(found.Value, -0.001, 0.001);
        Assert.InRange(found.StandardUncertainty, 0, 0.0005);
    }

    // ln of the light that a second converter's slope hides: S·(1 − m) from a fifth of saturation on.
    [Theory]
    [InlineData(0.004)]
    [InlineData(0.02)]
    public void Between_SecondConverter_HoldsWhatItHides(double mismatch)
    {
        ResponseResidual residual = Of("two converters", mismatch);
        Estimate found = residual.Between(GreyDn, (1 - mismatch) * FullDn);

        Assert.True(residual.Departs || residual.IsOpen);
        Assert.Equal(mismatch > 0.01, residual.Departs);
        Assert.InRange(-Math.Log(1 - mismatch), found.Value - (Deviations * found.StandardUncertainty), found.Value + (Deviations * found.StandardUncertainty));
        Assert.InRange(found.StandardUncertainty, 0, 0.03);
    }

    [Theory]
    [InlineData(0.03)]
    [InlineData(0.1)]
    public void Between_KneeOverTheTopHalfStop_HoldsWhatIsMissing(double missing)
    {
        Estimate found = Of("late knee", missing).Between(GreyDn, (1 - missing) * FullDn);

        Assert.InRange(-Math.Log(1 - missing), found.Value - (Deviations * found.StandardUncertainty), found.Value + (Deviations * found.StandardUncertainty));
        Assert.True(found.Value > 0);
    }

    /// <summary>Up to seven tenths of saturation the noise is fitted: a knee beyond moves no gain, a second converter from a fifth on does.</summary>
    [Theory]
    [InlineData("late knee", 0.03, 0, 0.002)]
    [InlineData("two converters", 0.02, 0.015, 0.03)]
    [InlineData("two converters", 0, 0, 0.0005)]
    public void ReachInFit_IsOfTheSignalsThatNoiseIsFittedTo(string name, double size, double least, double most) =>
        Assert.InRange(Of(name, size).ReachInFit, least, most);

    /// <summary>Lamps change their colour while they warm up, and from frame to frame where they pulse: channels differ by that, and the response is straight.</summary>
    [Theory]
    [InlineData("lamp reddens", 0.01)]
    [InlineData("lamp reddens", 0.2)]
    [InlineData("lamp's colour flickers", 0.001)]
    [InlineData("lamp's colour flickers", 0.05)]
    public void Between_LightThatChangesItsColour_IsNothingAndHardlyUncertain(string name, double size)
    {
        ResponseResidual residual = Of(name, size);
        Estimate found = residual.Between(GreyDn, FullDn);

        Assert.False(residual.Departs);
        Assert.InRange(found.Value, -0.001, 0.001);
        Assert.InRange(found.StandardUncertainty, 0, 0.001);
        Assert.InRange(residual.ReachInFit, 0, 0.001);
    }

    /// <summary>Red gains a twentieth over the set and blue loses it: of that, what lies between the exposures that tell.</summary>
    [Fact]
    public void ColourTrend_OfALampThatReddens_IsWhatRedGainsOnBlue()
    {
        ResponseResidual reddens = Of("lamp reddens", 0.05);

        Assert.True(reddens.ColourDrifts);
        Assert.InRange(reddens.ColourTrend, 0.01, 0.05);
        Assert.False(Of("lamp's colour flickers", 0.01).ColourDrifts);
        Assert.False(Of("two converters", 0.02).ColourDrifts);
    }

    [Fact]
    public void Of_OneChannel_TellsNothing() =>
        Assert.Null(ResponseResidual.Of(RehearsedSet.Evidence([], RehearsedSet.SmallBody with { ColourFilterArray = "monochrome" })[0].Channels));

    private static ResponseResidual Of(string name, double size)
    {
        IsoEvidence evidence = RehearsedSet.Evidence(ForeignFlaws.Named(name), size, Body)[0];
        return ResponseResidual.Of(evidence.Channels)!;
    }
}
