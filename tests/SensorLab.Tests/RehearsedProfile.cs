using SensorLab.Profiles;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Tests;

/// <summary>A small rehearsed set of two ISOs and its profile, made once for all tests of a class.</summary>
public sealed class RehearsedProfile : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-").FullName;

    public string Frames => Path.Combine(_folder, "frames");

    public SensorProfile Profile { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Rehearsal.Write(Frames, new RehearsalOptions { IsoValues = [100, 400], WidthPixels = 192, HeightPixels = 128 }, null, TestContext.Current.CancellationToken);
        Profile = await Characterisation.RunAsync(Frames, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken);
    }

    public ValueTask DisposeAsync()
    {
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }
}
