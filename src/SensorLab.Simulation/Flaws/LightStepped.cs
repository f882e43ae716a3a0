using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>A filter was before the lens for two more frames of every second bracket level, and nobody wrote it down.</summary>
internal sealed class LightStepped : IFlaw
{
    private const int FramesBehindFilter = 2;

    public string Code => "light-stepped";

    public string Meaning => "a filter's stops in two more frames of every second bracket level, without a light step";

    public FlawSize Size => FlawSize.Ev(6);

    public FlawTurn Turn => FlawTurn.First;

    public void ChangePlan(FlawScene scene)
    {
        PlannedFrame[] last = [.. scene.Plan.IsoValues.SelectMany(iso => scene.LevelsOf(iso).Where((_, i) => i % 2 == 1).Select(level => level[^1]))];
        foreach (PlannedFrame frame in last)
        {
            for (int i = 0; i < FramesBehindFilter; i++)
            {
                scene.AddLike(frame, added => added.WithLight(Math.Pow(2, -scene.Size)));
            }
        }
    }
}
