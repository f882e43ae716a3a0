using SensorLab.Reports.Tests.Samples;

namespace SensorLab.Reports.Tests;

public sealed class ChartFolderWriterTests : IDisposable
{
    private readonly string _folder = Path.Combine(Path.GetTempPath(), "sensorlab-charts-" + Guid.NewGuid().ToString("N"));

    public void Dispose()
    {
        if (Directory.Exists(_folder))
        {
            Directory.Delete(_folder, recursive: true);
        }
    }

    [Fact]
    public void Write_ThreeIsos_WritesEveryChartTwiceInBothThemes()
    {
        IReadOnlyList<string> names = ChartFolderWriter.Write(SampleProfile.ThreeIsos(), _folder, TestContext.Current.CancellationToken);

        string[] charts = ["latitude-ruler", "snr-iso-100", "photon-transfer-iso-100", "snr-iso-400", "photon-transfer-iso-400", "snr-iso-1600", "photon-transfer-iso-1600"];
        string[] expected = [.. charts.SelectMany(c => new[] { $"{c}.svg", $"{c}.png", $"{c}-dark.svg", $"{c}-dark.png" })];
        Assert.Equal(expected, names);
        Assert.Equal(expected.Order(StringComparer.Ordinal), Directory.EnumerateFileSystemEntries(_folder).Select(p => Path.GetFileName(p)!).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Write_FolderInAChartsPlace_LeavesTheOldChartsUntouched()
    {
        Directory.CreateDirectory(Path.Combine(_folder, "snr-iso-400.svg"));
        string old = Path.Combine(_folder, "latitude-ruler.svg");
        File.WriteAllText(old, "old");

        IOException thrown = Assert.Throws<IOException>(() => ChartFolderWriter.Write(SampleProfile.Of(new VirtualBody()), _folder, TestContext.Current.CancellationToken));

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
            Assert.ThrowsAny<IOException>(() => ChartFolderWriter.Write(SampleProfile.Of(new VirtualBody()), _folder, TestContext.Current.CancellationToken));
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

        Assert.Throws<OperationCanceledException>(() => ChartFolderWriter.Write(SampleProfile.Of(new VirtualBody()), _folder, cancelled.Token));

        Assert.False(Directory.Exists(_folder));
    }

    [Fact]
    public void Write_OtherFilesInTheFolder_AreLeftAlone()
    {
        Directory.CreateDirectory(_folder);
        string other = Path.Combine(_folder, "notes.txt");
        File.WriteAllText(other, "mine");

        ChartFolderWriter.Write(SampleProfile.Of(new VirtualBody()), _folder, TestContext.Current.CancellationToken);

        Assert.Equal("mine", File.ReadAllText(other));
    }
}
