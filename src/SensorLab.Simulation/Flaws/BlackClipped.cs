using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>The body leaves so little below black that the noise of dark frames is cut off at code 0.</summary>
internal sealed class BlackClipped : IFlaw
{
    public string Code => "black-clipped";

    public string Meaning => "black level left above code 0; the smaller, the more is cut off";

    public FlawSize Size => FlawSize.Dn(1, 100);

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size) =>
        body with { BlackLevelDn = size, DeclaredBlackDn = null, DeclaredWhiteDn = null };
}
