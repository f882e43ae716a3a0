namespace SensorLab.Simulation.Flaws;

/// <summary>Each lit frame has its own light.</summary>
internal sealed class LightFlicker : IFlaw
{
    // Beyond three deviations a lamp would be called broken; it also keeps the light above zero.
    private const double MostDeviations = 3;

    public string Code => "light-flicker";

    public string Meaning => "standard deviation of the light from frame to frame";

    public FlawSize Size => FlawSize.Relative(0.03, 0.3);

    public void ChangePlan(FlawScene scene) => scene.Change(
        frame => frame.Exposure.LightElectron > 0,
        frame => frame.WithLight(1 + (scene.Size * Math.Clamp(scene.NextNormal(), -MostDeviations, MostDeviations))));
}
