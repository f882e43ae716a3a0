using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>Further frames that were taken with a crop.</summary>
internal sealed class FrameSizeDiffers : IFlaw
{
    public string Code => "frame-size-differs";

    public string Meaning => "frames of half the width and height";

    public FlawSize Size => FlawSize.Count(1);

    public FlawTurn Turn => FlawTurn.First;

    public void ChangePlan(FlawScene scene)
    {
        foreach (PlannedFrame[] level in scene.WellLitLevels((int)scene.Size))
        {
            scene.AddLike(level[^1], frame => frame with { Raw = frame.Raw with { Layout = Halved(frame.Raw.Layout) } });
        }
    }

    private static MosaicLayout Halved(MosaicLayout layout)
    {
        // Even, so that the filters' order stays; the active area's own half, margins kept.
        PixelRectangle active = layout.ActiveArea with
        {
            Width = Math.Max(2, layout.ActiveArea.Width / 4 * 2),
            Height = Math.Max(2, layout.ActiveArea.Height / 4 * 2),
        };
        return layout with { WidthPixels = active.Right, HeightPixels = active.Bottom, ActiveArea = active, MaskedAreas = [] };
    }
}
