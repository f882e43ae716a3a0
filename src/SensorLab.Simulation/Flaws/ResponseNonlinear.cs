using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>The response is compressed: what is missing grows with the signal's square.</summary>
internal sealed class ResponseNonlinear : IFlaw
{
    public string Code => "response-nonlinear";

    public string Meaning => "fraction of the response missing at the full well";

    public FlawSize Size => FlawSize.Relative(0.05, 0.4);

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size) =>
        body with { CompressionPercent = 100 * size };
}
