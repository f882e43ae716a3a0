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
}
