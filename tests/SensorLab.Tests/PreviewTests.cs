using SensorLab.Profiles;
using SensorLab.RawFiles.Previews;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Tests;

public sealed class PreviewTests(RehearsedPreviews rehearsed) : IClassFixture<RehearsedPreviews>
{
    private const double ClipToleranceEv = 0.1;

    private const double GreyToleranceCodes = 2;

    /// <summary>
    /// Metered grey is each channel's own, the standard's one exposure for all through the channels' ratios: they agree to
    /// the uncertainty of a small region's mean, a few parts in ten thousand.
    /// </summary>
    private const double GreyRatioEv = 0.003;

    [Fact]
    public void Previews_ThreeContrasts_ClipAndGreyAreTrueAndTheOrderIsRight()
    {
        foreach ((IsoProfile iso, IsoTruth truth) in rehearsed.Profile.IsoProfiles.Zip(rehearsed.Truth))
        {
            Assert.Equal(["soft", "neutral", "hard"], iso.Previews.Select(p => p.Look));
            Assert.All(iso.Previews, preview =>
            {
                PreviewTruth known = truth.Previews!.Single(p => p.Look == preview.Look);
                Assert.Equal(known.ClipEv, preview.ClipEv!.Value!.Value, ClipToleranceEv);
                Assert.Equal(known.HiddenHeadroomEv, preview.HiddenHeadroomEv!.Value!.Value, ClipToleranceEv);
                Assert.InRange(known.ClipEv, preview.ClipEv.Lower95!.Value, preview.ClipEv.Upper95!.Value);
                Assert.Equal(known.MiddleGreyCode, CodeAtGrey(preview), GreyToleranceCodes);
            });
        }
    }

    [Fact]
    public void Previews_RefittedFromTheProfile_AreTheSameBytes() =>
        Assert.Equal(Text(rehearsed.Profile), Text(Refit.Of(rehearsed.Profile, new CharacterisationOptions(), TestContext.Current.CancellationToken)));

    [Fact]
    public void Previews_RefittedToAnotherGrey_MoveWithIt()
    {
        SensorProfile refitted = Refit.Of(rehearsed.Profile, new CharacterisationOptions { Grey = Sets.GreyMethod.Saturation }, TestContext.Current.CancellationToken);

        foreach ((IsoProfile before, IsoProfile after) in rehearsed.Profile.IsoProfiles.Zip(refitted.IsoProfiles))
        {
            double moved = after.Latitude.AboveEv!.Value!.Value - before.Latitude.AboveEv!.Value!.Value;
            Assert.Equal(before.Previews[0].ClipEv!.Value!.Value + moved, after.Previews[0].ClipEv!.Value!.Value, GreyRatioEv);
            Assert.Equal(before.Previews[0].HiddenHeadroomEv!.Value!.Value, after.Previews[0].HiddenHeadroomEv!.Value!.Value, GreyRatioEv);
        }
    }

    [Fact]
    public async Task Previews_ThatAdapt_AreAFindingAndNoCurve()
    {
        SensorProfile profile = await CharacterisedAsync("preview-adaptive");

        Assert.Empty(profile.IsoProfiles[0].Previews);
        Assert.Contains(profile.Findings, f => f is { Code: FindingCode.PreviewAdaptive, Iso: 100, Size: > 0.1 });
        Assert.Equal(Text(profile), Text(Refit.Of(profile, new CharacterisationOptions(), TestContext.Current.CancellationToken)));
    }

    [Fact]
    public async Task Previews_Missing_AreOneFinding()
    {
        SensorProfile profile = await CharacterisedAsync("preview-missing");

        Assert.Empty(profile.IsoProfiles[0].Previews);
        Assert.Null(Assert.Single(profile.Findings, f => f.Code == FindingCode.PreviewMissing).Iso);
    }

    [Fact]
    public async Task Previews_BesideTheFrames_ServeAsEmbeddedOnesDo()
    {
        string folder = Directory.CreateTempSubdirectory("sensorlab-").FullName;
        try
        {
            // The same seed gives the same frames: one set with previews inside lends them to the one without.
            string inside = Path.Combine(folder, "inside");
            string beside = Path.Combine(folder, "beside");
            (SensorProfile embedded, _) = await RehearsedPreviews.RehearseAsync(inside, new(), [100]);
            (SensorProfile apart, _) = await RehearsedPreviews.RehearseAsync(beside, new(), [100], "preview-missing", () =>
            {
                foreach (string file in Directory.EnumerateFiles(inside, "*.dng", SearchOption.AllDirectories))
                {
                    string target = Path.Combine(beside, Path.GetRelativePath(inside, file));
                    File.WriteAllBytes(Path.ChangeExtension(target, ".jpg"), PreviewExtractor.Extract(file)!);
                }
            });

            Assert.Equal(embedded.IsoProfiles[0].Previews.Single().ToneCurve, apart.IsoProfiles[0].Previews.Single().ToneCurve);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<SensorProfile> CharacterisedAsync(string flaw)
    {
        string folder = Directory.CreateTempSubdirectory("sensorlab-").FullName;
        try
        {
            return (await RehearsedPreviews.RehearseAsync(Path.Combine(folder, "frames"), new(), [100], flaw)).Profile;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static double CodeAtGrey(PreviewProfile preview)
    {
        ToneCurvePoint below = preview.ToneCurve.Last(p => p.Ev <= 0);
        ToneCurvePoint above = preview.ToneCurve.First(p => p.Ev > 0);
        return below.Code + ((above.Code - below.Code) * -below.Ev / (above.Ev - below.Ev));
    }

    private static byte[] Text(SensorProfile profile)
    {
        using var document = new MemoryStream();
        SensorProfileWriter.Write(profile, document);
        return document.ToArray();
    }
}
