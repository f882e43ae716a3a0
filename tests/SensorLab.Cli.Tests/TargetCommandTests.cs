using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class TargetCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("sheet.svg", null, "210mm")]
    [InlineData("sheet.SVG", "a3", "297mm")]
    [InlineData("sheet.svg", "Letter", "215.9mm")]
    public async Task Target_Svg_HasThePapersSize(string name, string? paper, string width)
    {
        string[] words = ["target", "--out", _folder.File(name), .. paper is null ? [] : new[] { "--paper", paper }];

        CommandRun run = await CommandRun.OfAsync(new Workbench(), words);

        Assert.Equal(0, run.Status);
        Assert.Contains($"width=\"{width}\"", await File.ReadAllTextAsync(_folder.File(name), TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Target_Pdf_IsOne()
    {
        CommandRun run = await CommandRun.OfAsync(new Workbench(), "target", "--out", _folder.File("sheet.pdf"));

        Assert.Equal(0, run.Status);
        byte[] file = await File.ReadAllBytesAsync(_folder.File("sheet.pdf"), TestContext.Current.CancellationToken);
        Assert.Equal([.. "%PDF"u8], file[..4]);
    }

    [Theory]
    [InlineData("sheet.png", "A4")]
    [InlineData("sheet.pdf", "A5")]
    [InlineData("sheet", "A4")]
    public async Task Target_WordOff_IsAUsageError(string name, string paper)
    {
        CommandRun run = await CommandRun.OfAsync(new Workbench(), "target", "--out", _folder.File(name), "--paper", paper);

        Assert.Equal(2, run.Status);
        Assert.False(File.Exists(_folder.File(name)));
    }
}
