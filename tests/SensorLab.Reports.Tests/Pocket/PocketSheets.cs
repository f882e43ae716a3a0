using System.Collections.Concurrent;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Pocket;

/// <summary>Pocket sheets of every state in files, made once for the tests of a class.</summary>
public sealed class PocketSheets : IDisposable
{
    private readonly ConcurrentDictionary<string, string> _paths = new();
    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-pocket-").FullName;

    public static TheoryData<string> States { get; } = ["one body", "team", "monochrome", "bounds", "hostile strings", "twenty ISOs"];

    internal static SensorProfile[] Profiles(string state) => state switch
    {
        "one body" => [SampleProfiles.ThreeIsos()],
        "team" => [SampleProfiles.ThreeIsos(), Colleague("20433", 0.41), Colleague(null, -0.2), SampleProfiles.Bounds()],
        "monochrome" => [SampleProfiles.Monochrome()],
        "bounds" => [SampleProfiles.Bounds()],
        "hostile strings" => [SampleProfiles.HostileStrings()],
        "twenty ISOs" => [Samples.SampleStates.Of("twenty ISOs")],
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "No such state."),
    };

    public string PathOf(string state) => _paths.GetOrAdd(state, name =>
    {
        string path = Path.Combine(_folder, name.Replace(' ', '-') + ".html");
        File.WriteAllBytes(path, PocketWriter.Html(Profiles(name)));
        return path;
    });

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static SensorProfile Colleague(string? serialNumber, double moreEv)
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        return profile with
        {
            Body = profile.Body with { SerialNumber = serialNumber },
            IsoProfiles = [.. profile.IsoProfiles.Select(iso => iso with
            {
                Latitude = iso.Latitude with { AboveEv = SampleProfiles.Measured(iso.Latitude.AboveEv!.Value!.Value + moreEv, 0.004, 410) },
            })],
        };
    }
}
