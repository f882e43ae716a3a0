using System.Text;
using SensorLab.Profiles;
using SensorLab.Publishing.Archive;
using SensorLab.Publishing.Bundles;
using SensorLab.TestData;

namespace SensorLab.Publishing.Tests;

public sealed class AnonymousProfileTests
{
    private const string Serial = "KX-204170";

    private static readonly string[] Telling = [Serial, "P0012", "P0013", "P0099", "P0040", ".dng", new string('a', 64), "2026-04-18", "09:30", "night-two"];

    [Fact]
    public void Make_Anonymous_NoFileOfTheBundleTellsWhose()
    {
        PublishedBundle bundle = Publication.Make(Chatty(), SampleBundles.Accepting with { IsAnonymous = true }, TestContext.Current.CancellationToken);

        foreach (ArchiveFile file in SampleBundles.Contents(bundle).Where(f => !f.Path.EndsWith(".png", StringComparison.Ordinal) && !f.Path.EndsWith(".pdf", StringComparison.Ordinal)))
        {
            string text = Encoding.UTF8.GetString(file.Bytes.Span);
            Assert.All(Telling, word => Assert.False(text.Contains(word, StringComparison.Ordinal), $"{file.Path} tells {word}."));
        }

        Assert.Equal(AnonymousProfile.LeftOut, bundle.Manifest.LeftOut);
        Assert.Contains("serial number", PublicationTests.TextOf(bundle, "README.txt"), StringComparison.Ordinal);
    }

    [Fact]
    public void Make_NotAnonymous_TellsAllOfIt()
    {
        // The search above would pass on an empty bundle.
        SensorProfile profile = Chatty();
        using var stream = new MemoryStream();
        SensorProfileWriter.Write(profile, stream);
        string text = Encoding.UTF8.GetString(stream.ToArray());

        Assert.All(Telling, word => Assert.Contains(word, text, StringComparison.Ordinal));
    }

    [Fact]
    public void Of_Frames_AreNumberedByRoleAlikeEverywhere()
    {
        SensorProfile anonymous = AnonymousProfile.Of(Chatty());

        Assert.Equal(["bracket/0001", "bracket/0002", "light/0001", "frame/0001"], anonymous.Frames.Select(f => f.File));
        Assert.Equal(["bracket/0001", "bracket/0002"], anonymous.Findings[1].Frames);
        Assert.Equal("bracket/0001 and its copy bracket/0002 (shot (left out)) are of body (left out); frame/0002 beside light/0001 was not read, see bracket/0001.", anonymous.Findings[1].Message);
        Assert.Equal(["frame/0002"], anonymous.Findings[2].Frames);
        Assert.All(anonymous.Frames, f => Assert.Null(f.Sha256));
    }

    [Fact]
    public void Of_Figures_StayAsTheyAre()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        SensorProfile anonymous = AnonymousProfile.Of(profile);

        Assert.Equal(Text(profile with { CreatedUtc = null, Body = anonymous.Body, Frames = anonymous.Frames, Findings = anonymous.Findings }), Text(anonymous));
        Assert.Equal((profile.Body.Model, profile.Body.Firmware, null), (anonymous.Body.Model, anonymous.Body.Firmware, anonymous.Body.SerialNumber));
    }

    [Fact]
    public void Of_EverydayNumbers_AreNotTakenForNames()
    {
        SensorProfile profile = SampleProfiles.Monochrome();
        SensorProfile named = profile with
        {
            Body = profile.Body with { SerialNumber = "12" },
            Frames = [profile.Frames[0] with { File = "dark/1600.dng" }, profile.Frames[0] with { File = "dark/dark.dng" }, profile.Frames[0] with { File = "5.dng" }],
            Findings = [profile.Findings[0] with { Frames = [], Message = "At ISO 1600 and f/5.6 the dark frames, 12 of them, are 0.5 DN high.", Remedy = "See 1600.dng." }],
        };

        Finding finding = AnonymousProfile.Of(named).Findings[0];

        Assert.Equal("At ISO 1600 and f/5.6 the dark frames, 12 of them, are 0.5 DN high.", finding.Message);
        Assert.Equal("See bracket/0001.", finding.Remedy);
    }

    [Fact]
    public void Of_LightsThatDifferByDateAlone_StayApart()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        SensorProfile anonymous = AnonymousProfile.Of(profile with
        {
            Lights = [profile.Lights[0] with { Name = "sun 2026-04-18" }, profile.Lights[0] with { Name = "sun 2026-04-19" }, profile.Lights[0] with { Name = "light 1" }],
        });

        Assert.Equal(["light 2", "light 3", "light 1"], anonymous.Lights.Select(l => l.Name));
    }

    private static SensorProfile Chatty()
    {
        SensorProfile profile = SampleProfiles.Monochrome();
        return profile with
        {
            Body = profile.Body with { SerialNumber = Serial },
            RecordingMode = profile.RecordingMode with { Description = $"14 bits, body {Serial}" },
            Conditions = profile.Conditions with { Light = "sky on 2026-04-18 at noon", Lens = $"50 mm of {Serial}", Protocol = "night-two/lamp/bracket of 2026:04:18 09:30" },
            Assumptions = ["bracket/P0012.dng was metered."],
            Findings =
            [
                profile.Findings[0],
                profile.Findings[1] with { Message = $"bracket/P0012.dng and its copy P0013.dng (shot 2026-04-18T09:30:00Z) are of body {Serial}; P0040.jpg beside night-two/lamp/light/P0040.dng was not read, see P0012." },
                profile.Findings[2] with { Frames = ["P0040.jpg"] },
            ],
            Frames =
            [
                profile.Frames[0],
                profile.Frames[0] with { File = "bracket/P0013.dng" },
                profile.Frames[0] with { File = "night-two/lamp/light/P0040.dng", Role = "light" },
                profile.Frames[1],
            ],
        };
    }

    private static string Text(SensorProfile profile)
    {
        using var stream = new MemoryStream();
        SensorProfileWriter.Write(profile, stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
