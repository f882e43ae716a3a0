using SensorLab.Frames;

namespace SensorLab.Simulation.Flaws;

/// <summary>Some columns and rows do not answer as the others: by turns one is dead, one weak, one bright.</summary>
internal sealed class LinesDead : IFlaw
{
    private const int Kinds = 3;

    /// <summary>What a weak line has of its neighbours' signal.</summary>
    private const double WeakShare = 0.6;

    /// <summary>What a bright line reads more.</summary>
    private const int BrightDn = 40;

    public string Code => "lines-dead";

    public string Meaning => "columns and rows, by turns, that are dead, weak or bright";

    public FlawSize Size => FlawSize.Count(1, largest: 100);

    public void ChangePlan(FlawScene scene)
    {
        PixelRectangle active = scene.Plan.Camera.Layout.ActiveArea;
        int black = (int)Math.Round(scene.Body.BlackLevelDn);
        int largest = scene.Body.LargestCodeDn;
        (bool IsRow, int Place, int Kind)[] lines =
        [
            .. Enumerable.Range(0, (int)scene.Size).Select(i => (
                IsRow: i % 2 == 1,
                Place: i % 2 == 1 ? active.Y + (int)(scene.NextUnit() * active.Height) : active.X + (int)(scene.NextUnit() * active.Width),
                Kind: i % Kinds)),
        ];
        scene.Change(_ => true, frame => frame.WithEffect((codes, layout) =>
        {
            foreach ((bool isRow, int place, int kind) in lines)
            {
                int length = isRow ? active.Width : active.Height;
                for (int i = 0; i < length; i++)
                {
                    ref ushort code = ref codes[isRow ? (place * layout.WidthPixels) + active.X + i : ((active.Y + i) * layout.WidthPixels) + place];
                    code = Changed(code, kind, black, largest);
                }
            }
        }));
    }

    private static ushort Changed(ushort code, int kind, int black, int largest) => kind switch
    {
        0 => (ushort)black,
        1 => (ushort)Math.Floor(black + ((code - black) * WeakShare) + 0.5),
        _ => (ushort)Math.Min(largest, code + BrightDn),
    };
}
