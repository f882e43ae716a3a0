using System.Collections.Concurrent;
using SensorLab.Profiles;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tests.Samples;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Documents;

/// <summary>Reports of every state as pages in files, made once for the tests of a class.</summary>
public sealed class ReportPages : IDisposable
{
    private static readonly ChartFont Font = ChartFont.OfThisSystem();

    private readonly ConcurrentDictionary<string, string> _paths = new();
    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-pages-").FullName;

    internal static SensorProfile Profile(string state) => state switch
    {
        "full" => SampleProfiles.ThreeIsos(),
        "full monochrome" => SampleProfiles.Monochrome(),
        "full bounds" => SampleProfiles.Bounds(),
        "hostile strings" => SampleProfiles.HostileStrings(),
        _ => SampleStates.Of(state),
    };

    internal static ReportDocument Report(SensorProfile profile) => new ReportBuilder(profile, Font).Build();

    public string PathOf(string state) => _paths.GetOrAdd(state, name =>
    {
        string path = Path.Combine(_folder, name.Replace(' ', '-') + ".html");
        File.WriteAllBytes(path, HtmlReport.Of(Report(Profile(name))));
        return path;
    });

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
