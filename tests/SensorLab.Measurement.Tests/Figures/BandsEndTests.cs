using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Tests.Findings;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Figures;

/// <summary>Where stripes begin to show, against what is true of the rehearsed body.</summary>
public sealed class BandsEndTests
{
    /// <summary>The EV tolerance of a flawed set's figures, or five standard uncertainties where rows are few.</summary>
    private const double ToleranceEv = 0.03;

    private const double Uncertainties = 5;

    // Wide: a body of 240 columns would hide lines of an electron in their pixels' own noise.
    private static readonly VirtualBody Body = new() { WidthPixels = 480, HeightPixels = 320 };

    [Theory]
    [InlineData(2)]
    [InlineData(6)]
    [InlineData(20)]
    public void BandsEndEv_RowNoise_IsWhereATenthOfAPixelsNoiseIsReached(double rowElectron)
    {
        IsoProfile iso = RehearsedSet.Evidence([FormattableString.Invariant($"shadow-banded={rowElectron}")], Body)[0].Profile;

        VirtualIso setting = Body.At(iso.Iso);
        double pixel = Square(setting.ReadNoiseElectron) + Square(Body.DsnuElectron) + (Square(setting.GainElectronPerDn) / 12);
        double left = (100 * Square(rowElectron)) - pixel;
        double prnu = Square(Body.PrnuPercent / 100);
        double electron = (Math.Sqrt(1 + (4 * prnu * left)) - 1) / (2 * prnu);
        double grey = iso.Channels.Where(c => c.Name is "G1" or "G2").Average(c => c.MiddleGreyDn!.Value!.Value) * setting.GainElectronPerDn;
        double truth = Math.Log2(grey / electron);
        Figure bands = iso.Latitude.BandsEndEv!;
        Assert.Equal(truth, bands.Value!.Value, Math.Max(ToleranceEv, Uncertainties * bands.StandardUncertainty!.Value));
        Assert.True(bands.Value < iso.Latitude.BelowEv.Single(b => b.Snr == 10).PerPixel!.Value);
    }

    // At SNR 10 a pixel has a noise of about ten electrons; a tenth of that is one.
    [Theory]
    [InlineData("")]
    [InlineData("noise-banded=0.5")]
    [InlineData("shadow-banded=0.8")]
    public void BandsEndEv_LinesTooWeakToShow_IsAbsent(string flaw)
    {
        IsoProfile iso = RehearsedSet.Evidence(flaw.Length == 0 ? [] : [flaw], Body)[0].Profile;

        Assert.Null(iso.Latitude.BandsEndEv);
    }

    [Fact]
    public void Characterise_Bands_WarnsWithTheLinesElectronsAndLeavesTheSnrsEnd()
    {
        IsoProfile iso = RehearsedSet.Evidence(["shadow-banded=6"], Body)[0].Profile;

        (_, IReadOnlyList<Finding> findings) = IsoCharacteriser.Characterise(iso.Iso, iso.Levels, new IsoOptions(), TestContext.Current.CancellationToken);

        Finding finding = Assert.Single(findings, f => f.Code == FindingCode.ShadowBanded);
        Assert.Equal(FindingSeverity.Warning, finding.Severity);
        Assert.Equal("electron", finding.SizeUnit);
        Assert.InRange(finding.Size!.Value, 5, 7);
        Assert.NotNull(iso.Latitude.BelowEv.Single(b => b.Snr == 10).PerPixel);
    }

    private static double Square(double value) => value * value;
}
