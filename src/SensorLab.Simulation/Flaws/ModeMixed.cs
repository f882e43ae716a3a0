namespace SensorLab.Simulation.Flaws;

/// <summary>Every second bracket level was shot with another shutter, as frames.csv says.</summary>
internal sealed class ModeMixed : IFlaw
{
    public string Code => "mode-mixed";

    public string Meaning => "another recording mode in every second bracket level";

    public FlawSize Size => FlawSize.None;

    public void ChangePlan(FlawScene scene)
    {
        scene.Change(_ => true, frame => InMode(frame, "mechanical shutter"));
        scene.ChangeEverySecondLevel(frame => InMode(frame, "electronic shutter"));
    }

    private static Rehearsals.PlannedFrame InMode(Rehearsals.PlannedFrame frame, string mode) =>
        frame.WithColumn("mode", mode).WithMetadata(said => said with { Mode = said.Mode with { Name = mode } });
}
