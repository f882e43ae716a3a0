using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>The bracket of every ISO has a few levels, spread over its range.</summary>
internal sealed class LevelsTooFew : IFlaw
{
    public string Code => "levels-too-few";

    public string Meaning => "bracket levels that each ISO has";

    public FlawSize Size => FlawSize.Count(3, smallest: 0, largest: 100);

    public void ChangePlan(FlawScene scene)
    {
        foreach (int iso in scene.Plan.IsoValues)
        {
            PlannedFrame[][] levels = scene.LevelsOf(iso);
            int left = Math.Min((int)scene.Size, levels.Length);
            int[] kept = [.. Enumerable.Range(1, left).Select(i => (int)(i * (levels.Length - 1.0) / (left + 1)))];
            PlannedFrame[] gone = [.. levels.Where((_, i) => !kept.Contains(i)).SelectMany(level => level)];
            scene.Remove(gone.Contains);
        }
    }
}
