namespace SensorLab.Simulation.Flaws;

/// <summary>The body bends the curve of each preview to what it believes the scene to be.</summary>
internal sealed class PreviewAdaptive : IFlaw
{
    public string Code => "preview-adaptive";

    public string Meaning => "standard deviation of the preview's brightness from frame to frame";

    public FlawSize Size => FlawSize.Ev(0.3);

    public void ChangePlan(FlawScene scene) => scene.Change(
        frame => frame.Look is not null,
        frame =>
        {
            double brighterEv = scene.Size * scene.NextNormal();
            return frame with
            {
                Look = frame.Look! with
                {
                    ClipEv = Math.Max(0.5, frame.Look.ClipEv - brighterEv),
                    ShadowEndEv = Math.Min(-0.5, frame.Look.ShadowEndEv - brighterEv),
                },
            };
        });
}
