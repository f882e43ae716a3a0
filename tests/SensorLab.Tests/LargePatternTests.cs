using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Tests;

/// <summary>Sensors whose filters repeat over more than 2 × 2 photosites, from files to profile.</summary>
public sealed class LargePatternTests : IDisposable
{
    /// <summary>Standard uncertainties that one figure in 15,000 exceeds; the sets are seeded.</summary>
    private const double MostDeviations = 4;

    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    // The optical black puts the active area off the repeat; places of one channel see the light differently, by design.
    [Theory]
    [InlineData("6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG", new[] { 8L, 10, 10, 8 })]
    [InlineData("4x4:RRGGRRGGGGBBGGBB", new[] { 4L, 4, 4, 4 })]
    [InlineData("2x4:RGBGGBGR", new[] { 2L, 2, 2, 2 })]
    public async Task RunAsync_RehearsedSet_GivesWhatIsTrue(string filters, long[] places)
    {
        VirtualBody body = Body(filters);
        Rehearsal.Write(_folder, new RehearsalOptions { Body = body, IsoValues = [100] }, null, TestContext.Current.CancellationToken);

        SensorProfile profile = await Characterisation.RunAsync(_folder, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken);

        Assert.Equal("1.2", profile.FormatVersion);
        Assert.Equal(filters, profile.Sensor.ColourFilterArray);
        Assert.DoesNotContain(profile.Findings, f => f.Severity != FindingSeverity.Note);
        IsoProfile iso = profile.IsoProfiles[0];
        Assert.Equal(["R", "G1", "G2", "B"], iso.Channels.Select(c => c.Name));
        VirtualIso truth = body.At(100);
        foreach (ChannelProfile channel in iso.Channels)
        {
            Near(truth.GainElectronPerDn, channel.GainElectronPerDn!);
            Near(truth.ReadNoiseElectron, channel.ReadNoiseElectron!);
            Near(body.BlackLevelDn, channel.BlackLevelDn!);
            Near(body.PrnuPercent, channel.PrnuPercent!);
            Assert.True(channel.DngNoiseProfile is { Scale: > 0, Offset: > 0 });
        }

        LevelRecord level = iso.Levels[0];
        long repeats = level.PixelsPerChannel / places[0];
        Assert.Equal(places, level.Channels.Select(c => (c.Pixels ?? level.PixelsPerChannel) / repeats));
        Assert.Equal(Bytes(profile), Bytes(Refit.Of(ReadBack(profile), new CharacterisationOptions(), TestContext.Current.CancellationToken)));
    }

    [Fact]
    public async Task RunAsync_PhotositeRowsThatAreDead_AreFoundInEveryChannelThatTheyCross()
    {
        VirtualBody body = Body("6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG");
        Rehearsal.Write(_folder, new RehearsalOptions { Body = body, IsoValues = [100], Flaws = [FlawRequest.Parse("lines-dead=1")], Seed = 3 }, null, TestContext.Current.CancellationToken);

        SensorProfile profile = await Characterisation.RunAsync(_folder, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken);

        Finding finding = Assert.Single(profile.Findings, f => f.Code == FindingCode.LinesDead);
        Assert.Equal(1, finding.Size);
        Assert.Matches(@"column \d+ is dead", finding.Message);
        Assert.All(profile.IsoProfiles[0].Channels, channel => Near(body.At(100).GainElectronPerDn, channel.GainElectronPerDn!));
    }

    private static VirtualBody Body(string filters)
    {
        var body = new VirtualBody { ColourFilterArray = filters, WidthPixels = 250, HeightPixels = 170, MaskedLeftPixels = 10, MaskedTopPixels = 8, Look = null };
        int places = body.Filters.Rows * body.Filters.Columns;
        return body with { PlaceSensitivity = [.. Enumerable.Range(0, places).Select(i => 1 + (0.02 * Math.Cos(i)))] };
    }

    private static void Near(double truth, Figure figure) =>
        Assert.InRange((figure.Value!.Value - truth) / figure.StandardUncertainty!.Value, -MostDeviations, MostDeviations);

    private static SensorProfile ReadBack(SensorProfile profile)
    {
        using var document = new MemoryStream(Bytes(profile));
        return SensorProfileReader.Read(document);
    }

    private static byte[] Bytes(SensorProfile profile)
    {
        using var document = new MemoryStream();
        SensorProfileWriter.Write(profile, document);
        return document.ToArray();
    }
}
