using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>A body and its profile as it was, made once for all tests that hold frames against it.</summary>
public sealed class ConfirmedBody : IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();

    public static VirtualBody Body { get; } = new() { WidthPixels = 480, HeightPixels = 320, MaskedLeftPixels = 32 };

    public string Profile => _folder.File("p.json");

    public async ValueTask InitializeAsync()
    {
        Rehearsal.Write(_folder.File("set"), new RehearsalOptions { Body = Body, IsoValues = [400], Seed = 3 }, null, TestContext.Current.CancellationToken);
        Assert.Equal(0, (await CommandRun.OfAsync(new Workbench(), "characterise", _folder.File("set"), "--out", Profile)).Status);
    }

    public ValueTask DisposeAsync()
    {
        _folder.Dispose();
        return ValueTask.CompletedTask;
    }
}
