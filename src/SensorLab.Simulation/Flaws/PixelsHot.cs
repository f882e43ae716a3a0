namespace SensorLab.Simulation.Flaws;

/// <summary>Some photosites stand far above their neighbours in every frame.</summary>
internal sealed class PixelsHot : IFlaw
{
    private const int LeastDn = 200;
    private const int MostDn = 6000;

    public string Code => "pixels-hot";

    public string Meaning => "hot photosites in the active area";

    public FlawSize Size => FlawSize.Count(40);

    public void ChangePlan(FlawScene scene)
    {
        var hot = new Dictionary<int, int>();
        long most = Math.Min((long)scene.Size, scene.Plan.Camera.Layout.ActiveArea.Area / 2);
        while (hot.Count < most)
        {
            int x = scene.Plan.Camera.Layout.ActiveArea.X + (int)(scene.NextUnit() * scene.Body.WidthPixels);
            int y = scene.Plan.Camera.Layout.ActiveArea.Y + (int)(scene.NextUnit() * scene.Body.HeightPixels);
            hot[(y * scene.Plan.Camera.Layout.WidthPixels) + x] = LeastDn + (int)(scene.NextUnit() * (MostDn - LeastDn));
        }

        int largest = scene.Body.LargestCodeDn;
        scene.Change(_ => true, frame => frame.WithEffect((codes, _) =>
        {
            foreach ((int site, int dn) in hot)
            {
                codes[site] = (ushort)Math.Min(largest, codes[site] + dn);
            }
        }));
    }
}
