using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tests.Samples;

namespace SensorLab.Reports.Tests.Charts;

public sealed class PhotonTransferModelTests
{
    // The bent sample's slope is a central difference: good to a millionth of a variance that is known to half a percent.
    private const double SameNoise = 0.001;

    [Fact]
    public void From_OneIso_EqualsGolden() => GoldenModel.Verify("photon-transfer", Model(SampleProfile.Of(new VirtualBody())));

    [Fact]
    public void Model_KnownPhysics_ExpectsTheTrueVariance()
    {
        var body = new VirtualBody();

        PhotonTransferModel model = Model(SampleProfile.Of(body));

        Assert.All(model.Channels, channel => Assert.Equal(body.TemporalVarianceDn2(1000), channel.Model!.TemporalVarianceAt(1000), 9));
    }

    [Fact]
    public void Model_WiderCodeStep_AddsItsQuantisation()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());
        IsoProfile iso = profile.IsoProfiles[0];
        iso = iso with { Levels = [.. iso.Levels.Select(l => l with { Channels = [.. l.Channels.Select(c => c with { CodeStepDn = 4 })] })] };

        PhotonTransferModel wide = PhotonTransferModel.From(profile, iso);

        Assert.Equal(15 / 12.0, wide.Channels[0].Model!.TemporalVarianceAt(0) - Model(profile).Channels[0].Model!.TemporalVarianceAt(0), 9);
    }

    [Fact]
    public void Points_DarkLevel_HasNoSignalAndComesFirst()
    {
        PhotonTransferModel model = Model(SampleProfile.Of(new VirtualBody()));

        Assert.All(model.Channels, channel => Assert.True(channel.Points[0] is { IsDark: true, SignalDn: 0, UsedInFit: true }));
        Assert.All(model.Channels, channel => Assert.Single(channel.Points, point => point.IsDark));
    }

    [Fact]
    public void Points_LeftOut_CarryTheReason()
    {
        PhotonTransferModel model = Model(SampleProfile.Of(new VirtualBody()));

        Assert.Equal(["above 70 % of saturation", "pixels clip"], model.ReasonsLeftOut.Order(StringComparer.Ordinal));
        PhotonTransferChannel green = model.Channels.Single(c => c.Name == "G1");
        Assert.Equal("pixels clip", green.Points[^1].LeftOut);
        Assert.Equal("above 70 % of saturation", green.Points.Single(p => p.SignalDn is > 0.7 * 15_600 and < 15_600).LeftOut);
    }

    [Fact]
    public void Residual_ShiftedVariance_CountsStandardUncertainties()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());
        IsoProfile iso = profile.IsoProfiles[0];
        LevelRecord level = iso.Levels.First(l => l.Ev == -1);
        LevelChannel channel = level.Channels[1];
        double fitted = Model(profile).Channels[1].Model!.TemporalVarianceAt(channel.MeanDn - 512.25);
        double uncertainty = channel.TemporalParts!.PixelUncertaintyDn2;
        level = level with { Channels = [channel with { TemporalVarianceDn2 = fitted + (3 * uncertainty) }] };

        PhotonTransferModel model = PhotonTransferModel.From(profile, iso with { Levels = [level] });

        Assert.Equal(3, model.Channels[1].Points.Single().Residual!.Value, 9);
        Assert.StartsWith("0 of 1 fitted points lie within two standard uncertainties of the profile's model", model.Heading.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Residual_WiderCodesInABrightLevel_LeavesTheirRoundingOut()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());
        IsoProfile iso = profile.IsoProfiles[0];
        LevelRecord level = iso.Levels.First(l => l.Ev == -1);
        LevelChannel channel = level.Channels[1];
        const double rounding = (16 - 1) / 12.0;
        LevelRecord wide = level with { Channels = [channel with { CodeStepDn = 4, TemporalVarianceDn2 = channel.TemporalVarianceDn2 + rounding }] };

        double Residual(LevelRecord bright) =>
            PhotonTransferModel.From(profile, iso with { Levels = [iso.Levels[0], bright] }).Channels[1].Points.Single(p => !p.IsDark).Residual!.Value;

        Assert.Equal(Residual(level), Residual(wide), 9);
    }

    // The same noise of the levels, hence as many beyond two of their uncertainties as of a straight body.
    [Fact]
    public void Sentence_BentBody_AgreesWithTheProfile()
    {
        PhotonTransferModel straight = Model(SampleProfile.Of(new VirtualBody()));
        PhotonTransferModel bent = Model(SampleProfile.Of(new VirtualBody { CompressionPercent = 8 }));

        double[] Residuals(PhotonTransferModel model) => [.. model.Channels.SelectMany(c => c.Points).Where(p => p.UsedInFit).Select(p => p.Residual!.Value)];

        Assert.Equal(Residuals(straight).Length, Residuals(bent).Length);
        Assert.All(Residuals(straight).Zip(Residuals(bent)), pair => Assert.Equal(pair.First, pair.Second, SameNoise));
        Assert.Contains("of the profile's model", bent.Heading.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Model_BentBodyTakenForStraight_IsFarOff()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody { CompressionPercent = 8 });
        IsoProfile iso = profile.IsoProfiles[0];
        iso = iso with { Channels = [.. iso.Channels.Select(c => c with { CompressionPercent = null })] };

        Assert.True(PhotonTransferModel.From(profile, iso).Channels[1].Points.Where(p => p.UsedInFit).Max(p => Math.Abs(p.Residual!.Value)) > 20);
    }

    [Fact]
    public void Axes_Profile_NameUnitsAndHoldFittedPoints()
    {
        PhotonTransferModel model = Model(SampleProfile.Of(new VirtualBody()));

        Assert.Equal(("DN", "DN²", "standard uncertainties"), (model.Signal.Unit, model.Variance.Unit, model.Residual.Unit));
        PhotonTransferPoint[] fitted = [.. model.Channels.SelectMany(c => c.Points).Where(p => p.UsedInFit)];
        Assert.All(fitted, point => Assert.InRange(point.VarianceDn2, model.Variance.Minimum, model.Variance.Maximum));
        Assert.All(fitted, point => Assert.InRange(point.Residual!.Value, model.Residual.Minimum, model.Residual.Maximum));
    }

    [Fact]
    public void From_AbsentFigures_IsEmptyAndSaysSo()
    {
        PhotonTransferModel model = Model(SampleStates.Of("absent"));

        Assert.True(model.IsEmpty);
        Assert.StartsWith("No model could be had", model.Heading.Sentence, StringComparison.Ordinal);
        Assert.All(model.Channels, channel => Assert.Equal("not measured", channel.Gain));
    }

    private static PhotonTransferModel Model(SensorProfile profile) => PhotonTransferModel.From(profile, profile.IsoProfiles[0]);
}
