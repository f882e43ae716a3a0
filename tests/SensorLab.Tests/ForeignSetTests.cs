using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Tests;

/// <summary>Sets of another simulator, which shares no code with this repository, against their own truth.</summary>
/// <remarks>
/// Tolerances are a flawed set's: gain 1 %, read noise 3 % (5 % below half a code step), saturation 0.5 %, black 0.05 DN,
/// EV 0.03, or five standard uncertainties where frames so few and small allow no more.
/// </remarks>
public sealed class ForeignSetTests
{
    private const double Gain = 0.01;
    private const double ReadNoise = 0.03;
    private const double CoarseReadNoise = 0.05;
    private const double Saturation = 0.005;
    private const double BlackDn = 0.05;
    private const double Ev = 0.03;
    private const double Uncertainties = 5;

    [Fact]
    public async Task Characterise_Clean_GivesEveryFigure()
    {
        (SensorProfile profile, JsonElement[] truths) = await CharacteriseAsync("clean");
        Assert.Equal(truths.Length, profile.IsoProfiles.Count);
        foreach ((IsoProfile iso, JsonElement truth) in profile.IsoProfiles.Zip(truths))
        {
            Assert.Equal(truth.GetProperty("iso").GetInt32(), iso.Iso);
            AssertChannels(iso, truth, ReadNoise);
            AssertFigure(iso.Latitude.AboveEv, Number(truth, "aboveEv"), Ev);
            foreach (JsonProperty below in truth.GetProperty("belowEv").EnumerateObject())
            {
                ShadowEnd end = iso.Latitude.BelowEv.Single(b => $"snr{b.Snr}" == below.Name);
                AssertFigure(end.PerPixel, below.Value.GetDouble(), Ev);
            }
        }
    }

    [Fact]
    public async Task Characterise_Coarse_GivesReadNoiseAndBlack()
    {
        (SensorProfile profile, JsonElement[] truths) = await CharacteriseAsync("coarse");
        AssertChannels(profile.IsoProfiles.Single(), truths.Single(), CoarseReadNoise);
        Assert.Contains(profile.Findings, f => f.Code == FindingCode.NoiseBelowStep);
    }

    [Fact]
    public async Task Characterise_Pulsed_GivesTheGain()
    {
        (SensorProfile profile, JsonElement[] truths) = await CharacteriseAsync("pulsed");
        double gain = Number(truths.Single(), "gainElectronPerDn");
        Assert.All(profile.IsoProfiles.Single().Channels, c => AssertFigure(c.GainElectronPerDn, gain, Gain * gain));
    }

    private static void AssertChannels(IsoProfile iso, JsonElement truth, double readNoiseShare)
    {
        Assert.Equal(4, iso.Channels.Count);
        foreach (ChannelProfile channel in iso.Channels)
        {
            double gain = Number(truth, "gainElectronPerDn");
            double readNoise = Number(truth, "readNoiseElectron");
            double saturation = Number(truth, "saturationDn");
            AssertFigure(channel.GainElectronPerDn, gain, Gain * gain);
            AssertFigure(channel.ReadNoiseElectron, readNoise, readNoiseShare * readNoise);
            AssertFigure(channel.BlackLevelDn, Number(truth, "blackLevelDn"), BlackDn);
            if (channel.SaturationDn?.Value is not null)
            {
                AssertFigure(channel.SaturationDn, saturation, Saturation * saturation);
            }
        }
    }

    private static void AssertFigure(Figure? figure, double truth, double tolerance)
    {
        Assert.NotNull(figure?.Value);
        double allowed = Math.Max(tolerance, Uncertainties * figure.StandardUncertainty!.Value);
        Assert.InRange(figure.Value.Value, truth - allowed, truth + allowed);
    }

    private static double Number(JsonElement truth, string name) => truth.GetProperty(name).GetDouble();

    private static async Task<(SensorProfile Profile, JsonElement[] Truths)> CharacteriseAsync(string name)
    {
        string folder = Path.Combine(Repository.Root, "..", "shared", "foreign-sets");
        Assert.SkipUnless(Directory.Exists(folder), "The foreign sets are not here.");
        using var truth = JsonDocument.Parse(await File.ReadAllTextAsync(Path.Combine(folder, name + ".truth.json"), TestContext.Current.CancellationToken));
        SensorProfile profile = await Characterisation.RunAsync(Path.Combine(folder, name), new CharacterisationOptions(), null, TestContext.Current.CancellationToken);
        return (profile, [.. truth.RootElement.EnumerateArray().Select(e => e.Clone())]);
    }
}
