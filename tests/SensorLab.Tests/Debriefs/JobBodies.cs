using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.TestData;

namespace SensorLab.Tests.Debriefs;

/// <summary>Three bodies that clip in three ways, each with the profile that SensorLab made of it.</summary>
public sealed class JobBodies : IAsyncLifetime
{
    private const int Width = 960;
    private const int Height = 640;

    // Made once for all classes of tests that use them.
    private static readonly Lazy<Task<Dictionary<string, SensorProfile>>> Made = new(MakeAsync);

    private Dictionary<string, SensorProfile> _profiles = [];

    /// <summary>The bodies' names.</summary>
    public static TheoryData<string> Names => ["well", "converter", "bent"];

    /// <summary>A body: the full well ends its range, or the converter, or a response that bends.</summary>
    public static VirtualBody Body(string name) => name switch
    {
        "well" => new VirtualBody { WidthPixels = Width, HeightPixels = Height },
        "converter" => new VirtualBody
        {
            Model = "LM-3",
            SerialNumber = "31102",
            BitDepth = 12,
            BlackLevelDn = 128.4,
            ColourFilterArray = "GBRG",
            WidthPixels = Width,
            HeightPixels = Height,
            MaskedLeftPixels = 32,
            PatternSeed = 7,
            IsoSettings = [new VirtualIso { Iso = 400, GainElectronPerDn = 2.1, ReadNoiseElectron = 3.4, MiddleGreyElectron = 900 }],
        },
        _ => new VirtualBody
        {
            Model = "LM-4",
            SerialNumber = "40007",
            ColourFilterArray = "BGGR",
            WidthPixels = Width,
            HeightPixels = Height,
            CompressionPercent = 3,
            PatternSeed = 11,
            IsoSettings = [new VirtualIso { Iso = 200, GainElectronPerDn = 3, ReadNoiseElectron = 4, MiddleGreyElectron = 5200 }],
        },
    };

    /// <summary>The ISO that the job is shot at.</summary>
    public static int IsoOf(string name) => Body(name).IsoSettings[0].Iso;

    /// <summary>Its profile.</summary>
    public SensorProfile Profile(string name) => _profiles[name];

    public async ValueTask InitializeAsync() => _profiles = await Made.Value;

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private static async Task<Dictionary<string, SensorProfile>> MakeAsync()
    {
        Dictionary<string, SensorProfile> profiles = [];
        foreach (string name in new[] { "well", "converter", "bent" })
        {
            using var folder = new TemporaryFolder();
            string set = Path.Combine(folder.Path, "set");
            Rehearsal.Write(set, new RehearsalOptions { Body = Body(name), IsoValues = [IsoOf(name)], Seed = 5 });
            profiles[name] = await Characterisation.RunAsync(set, new CharacterisationOptions());
        }

        return profiles;
    }
}
