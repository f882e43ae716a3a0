using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>Files declare a black level that is not the body's.</summary>
internal sealed class LevelsDeclared : IFlaw
{
    public string Code => "levels-declared";

    public string Meaning => "declared black above the true one";

    public FlawSize Size => FlawSize.Dn(8);

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size) =>
        body with { DeclaredBlackDn = body.BlackLevelDn + size };
}
