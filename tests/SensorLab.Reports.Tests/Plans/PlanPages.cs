using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;

namespace SensorLab.Reports.Tests.Plans;

/// <summary>Plans written into folders, made once for the tests of a class.</summary>
public sealed class PlanPages : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-plans-").FullName;

    public PlanPages()
    {
        foreach (string name in ProtocolLibrary.Names)
        {
            PlanWriter.Write(Plan(name), Path.Combine(_folder, name), TestContext.Current.CancellationToken);
        }
    }

    public string File(string protocol, string file) => Path.Combine(_folder, protocol, file);

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    internal static ShotPlan Plan(string name) => ShotPlanner.Plan(new PlanRequest
    {
        Protocol = ProtocolLibrary.Find(name)!,
        Metered = new MeteredExposure(ShutterTime.Nearest(1.0 / 60)!.Value, 100),
        Mains = new MainsLight(50),
    });
}
