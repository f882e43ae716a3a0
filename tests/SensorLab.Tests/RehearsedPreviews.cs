using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Tests;

/// <summary>A small rehearsed set in looks of three contrasts, made once for all tests of a class.</summary>
public sealed class RehearsedPreviews : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-").FullName;

    public static VirtualBody Body { get; } = new()
    {
        FurtherLooks =
        [
            new PreviewLook { Name = "hard", ClipEv = 2.1, ShadowEndEv = -5, MiddleGreyCode = 110 },
            new PreviewLook { Name = "soft", ClipEv = 3.05, ShadowEndEv = -8, MiddleGreyCode = 125 },
        ],
    };

    public SensorProfile Profile { get; private set; } = null!;

    public IReadOnlyList<IsoTruth> Truth { get; private set; } = null!;

    public async ValueTask InitializeAsync() => (Profile, Truth) = await RehearseAsync(Path.Combine(_folder, "frames"), Body, [100, 400]);

    public ValueTask DisposeAsync()
    {
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    /// <summary>Rehearses and characterises.</summary>
    /// <param name="frames">The folder to make.</param>
    /// <param name="body">The body.</param>
    /// <param name="isos">Its ISOs.</param>
    /// <param name="flaw">A flaw; null for none.</param>
    /// <param name="prepare">What happens to the frames before they are characterised; null for nothing.</param>
    public static async Task<(SensorProfile Profile, IReadOnlyList<IsoTruth> Truth)> RehearseAsync(
        string frames, VirtualBody body, IReadOnlyList<int> isos, string? flaw = null, Action? prepare = null)
    {
        var options = new RehearsalOptions
        {
            Body = body,
            IsoValues = isos,
            WidthPixels = 192,
            HeightPixels = 128,
            Flaws = flaw is null ? [] : [FlawRequest.Parse(flaw)],
        };
        IReadOnlyList<IsoTruth> truth = Rehearsal.Write(frames, options, null, TestContext.Current.CancellationToken);
        prepare?.Invoke();
        return (await Characterisation.RunAsync(frames, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken), truth);
    }
}
