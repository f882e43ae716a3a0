namespace SensorLab.Simulation.Flaws;

/// <summary>Every second bracket level was recorded in coarser steps, as a fast drive does.</summary>
internal sealed class DepthMixed : IFlaw
{
    public string Code => "depth-mixed";

    public string Meaning => "bits that every second bracket level lacks";

    public FlawSize Size => FlawSize.Count(2, largest: 6);

    public void ChangePlan(FlawScene scene)
    {
        int lost = (int)scene.Size;
        int largest = scene.Body.LargestCodeDn;
        scene.ChangeEverySecondLevel(frame => frame.WithEffect((codes, _) =>
        {
            int half = (1 << lost) >> 1;
            foreach (ref ushort code in codes)
            {
                code = (ushort)Math.Min(largest, (code + half) >> lost << lost);
            }
        }));
    }
}
