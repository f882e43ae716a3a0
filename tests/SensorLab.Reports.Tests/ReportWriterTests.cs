using SensorLab.Profiles;
using SensorLab.Reports.Tests.Samples;

namespace SensorLab.Reports.Tests;

public sealed class ReportWriterTests : IDisposable
{
    private readonly string _folder = Path.Combine(Path.GetTempPath(), "sensorlab-report-" + Guid.NewGuid().ToString("N"));

    public void Dispose()
    {
        if (Directory.Exists(_folder))
        {
            Directory.Delete(_folder, recursive: true);
        }
    }

    [Fact]
    public void Write_ThreeIsos_WritesPageDocumentChartsInBothThemesAndTables()
    {
        IReadOnlyList<string> names = ReportWriter.Write(SampleProfile.ThreeIsos(), _folder, TestContext.Current.CancellationToken);

        string[] kinds = ["photon-transfer", "snr", "response", "fixed-pattern", "preview"];
        string[] charts = ["latitude-ruler", "shadow-end", "declared-levels", .. new[] { 100, 400, 1600 }.SelectMany(iso => kinds.Select(kind => $"{kind}-iso-{iso}"))];
        string[] tables = ["latitude", "shadow-ends", "channels", "photon-transfer", "snr", "response", "fixed-pattern", "previews"];
        string[] expected =
        [
            "report.html",
            "report.pdf",
            "appendix.pdf",
            .. charts.SelectMany(c => new[] { $"charts/{c}.svg", $"charts/{c}.png", $"charts/{c}-dark.svg", $"charts/{c}-dark.png" }),
            .. tables.Select(t => $"tables/{t}.csv"),
        ];
        Assert.Equal(expected, names);
        Assert.Equal(
            expected.Order(StringComparer.Ordinal),
            Directory.EnumerateFiles(_folder, "*", SearchOption.AllDirectories).Select(p => Path.GetRelativePath(_folder, p).Replace('\\', '/')).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Write_SameProfile_GivesTheSameBytes()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());
        IReadOnlyList<string> names = ReportWriter.Write(profile, _folder, TestContext.Current.CancellationToken);
        Dictionary<string, byte[]> first = names.ToDictionary(n => n, n => File.ReadAllBytes(Path.Combine(_folder, n)));

        ReportWriter.Write(profile, _folder, TestContext.Current.CancellationToken);

        Assert.All(first, file => Assert.Equal(file.Value, File.ReadAllBytes(Path.Combine(_folder, file.Key))));
    }

    [Fact]
    public void Write_FolderInAChartsPlace_LeavesTheOldFilesUntouched()
    {
        Directory.CreateDirectory(Path.Combine(_folder, "charts", "snr-iso-400.svg"));
        string old = Path.Combine(_folder, "report.html");
        File.WriteAllText(old, "old");

        IOException thrown = Assert.Throws<IOException>(() => ReportWriter.Write(SampleProfile.Of(new VirtualBody()), _folder, TestContext.Current.CancellationToken));

        Assert.Contains("snr-iso-400.svg is a folder", thrown.Message, StringComparison.Ordinal);
        Assert.Equal("old", File.ReadAllText(old));
        Assert.Equal(2, Directory.EnumerateFileSystemEntries(_folder).Count());
    }

    [Fact]
    public void Write_FileInTheFoldersPlace_IsAnInputOutputError()
    {
        File.WriteAllText(_folder, "a file");
        try
        {
            Assert.ThrowsAny<IOException>(() => ReportWriter.Write(SampleProfile.Of(new VirtualBody()), _folder, TestContext.Current.CancellationToken));
            Assert.Equal("a file", File.ReadAllText(_folder));
        }
        finally
        {
            File.Delete(_folder);
        }
    }

    [Fact]
    public async Task Write_Cancelled_LeavesNothing()
    {
        using var cancelled = new CancellationTokenSource();
        await cancelled.CancelAsync();

        Assert.Throws<OperationCanceledException>(() => ReportWriter.Write(SampleProfile.Of(new VirtualBody()), _folder, cancelled.Token));

        Assert.False(Directory.Exists(_folder));
    }

    [Fact]
    public void Write_OtherFilesInTheFolder_AreLeftAlone()
    {
        Directory.CreateDirectory(_folder);
        string other = Path.Combine(_folder, "notes.txt");
        File.WriteAllText(other, "mine");

        ReportWriter.Write(SampleProfile.Of(new VirtualBody()), _folder, TestContext.Current.CancellationToken);

        Assert.Equal("mine", File.ReadAllText(other));
    }
}
