using System.Security.Cryptography;
using SensorLab.Profiles;

namespace SensorLab.Tests;

public sealed class CharacterisationTests(RehearsedProfile rehearsed) : IClassFixture<RehearsedProfile>
{
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(64)]
    public async Task RunAsync_AnyNumberOfJobs_GivesTheSameBytesAndEveryFilesHash(int jobs)
    {
        SensorProfile profile = await Characterisation.RunAsync(rehearsed.Frames, new CharacterisationOptions { Jobs = jobs }, null, TestContext.Current.CancellationToken);

        Assert.Equal(Text(rehearsed.Profile), Text(profile));
        Assert.All(profile.Frames, f => Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Path.Combine(rehearsed.Frames, f.File)))), f.Sha256));
    }

    [Fact]
    public async Task RunAsync_TheSamePixelsTwice_LeavesOneOutAndSaysSo()
    {
        using var copy = new TemporaryCopy(rehearsed.Frames);
        string[] bracket = [.. Directory.GetFiles(Path.Combine(copy.Path, "bracket")).Order(StringComparer.Ordinal)];
        File.Copy(bracket[4], Path.Combine(copy.Path, "bracket", "copy.dng"));

        SensorProfile profile = await Characterisation.RunAsync(copy.Path, new CharacterisationOptions(), null, TestContext.Current.CancellationToken);

        Finding finding = Assert.Single(profile.Findings, f => f.Code == FindingCode.FrameDuplicate);
        Assert.Equal(["bracket/" + Path.GetFileName(bracket[4]), "bracket/copy.dng"], finding.Frames.Order(StringComparer.Ordinal));
        Assert.Single(profile.Frames, f => !f.Used);
        Assert.Equal(Gain(rehearsed.Profile), Gain(profile));
    }

    [Fact]
    public async Task RunAsync_AFrameCutShort_IsLeftOutAndTheRestGoesOn()
    {
        using var copy = new TemporaryCopy(rehearsed.Frames);
        string victim = Directory.GetFiles(Path.Combine(copy.Path, "bracket")).Order(StringComparer.Ordinal).ElementAt(6);
        byte[] bytes = await File.ReadAllBytesAsync(victim, TestContext.Current.CancellationToken);
        await File.WriteAllBytesAsync(victim, bytes[..(bytes.Length / 2)], TestContext.Current.CancellationToken);

        SensorProfile profile = await Characterisation.RunAsync(copy.Path, new CharacterisationOptions(), null, TestContext.Current.CancellationToken);

        Assert.Single(profile.Findings, f => f.Code == FindingCode.FrameUnreadable && f.Frames.Contains("bracket/" + Path.GetFileName(victim)));
    }

    private static double? Gain(SensorProfile profile) => profile.IsoProfiles[0].Channels[1].GainElectronPerDn!.Value;

    private static string Text(SensorProfile profile)
    {
        using var document = new MemoryStream();
        SensorProfileWriter.Write(profile, document);
        return Convert.ToHexString(document.ToArray());
    }

    private sealed class TemporaryCopy : IDisposable
    {
        public TemporaryCopy(string folder)
        {
            foreach (string file in Directory.GetFiles(folder, "*", SearchOption.AllDirectories))
            {
                string target = System.IO.Path.Combine(Path, System.IO.Path.GetRelativePath(folder, file));
                Directory.CreateDirectory(System.IO.Path.GetDirectoryName(target)!);
                File.Copy(file, target);
            }
        }

        public string Path { get; } = Directory.CreateTempSubdirectory("sensorlab-").FullName;

        public void Dispose() => Directory.Delete(Path, recursive: true);
    }
}
