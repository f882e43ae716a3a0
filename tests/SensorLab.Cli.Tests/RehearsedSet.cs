using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>A small frame set of one ISO, rehearsed once for all tests that only read it.</summary>
public sealed class RehearsedSet : IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();

    public string Frames => _folder.File("set");

    public string Truth => Frames + ".truth.json";

    public async ValueTask InitializeAsync()
    {
        CommandRun run = await CommandRun.OfAsync(new Workbench(), "rehearse", Frames, "--iso", "400", "--pixels", "400x300");
        Assert.Equal(0, run.Status);
    }

    public ValueTask DisposeAsync()
    {
        _folder.Dispose();
        return ValueTask.CompletedTask;
    }
}
