using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>A card error cut files short: further frames of levels that keep their own.</summary>
internal sealed class FrameUnreadable : IFlaw
{
    public string Code => "frame-unreadable";

    public string Meaning => "files that end in the midst of their mosaic";

    public FlawSize Size => FlawSize.Count(1);

    public FlawTurn Turn => FlawTurn.First;

    public void ChangePlan(FlawScene scene)
    {
        foreach (PlannedFrame[] level in scene.WellLitLevels((int)scene.Size))
        {
            scene.AddLike(level[^1], frame => frame with { FileEffect = bytes => bytes[..(bytes.Length / 3)] });
        }
    }
}
