using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>frame-size-differs: frames of another size or colour filter array than most; the minority is left out.</summary>
internal sealed class SizeSieve : IFrameSieve
{
    public SiftedFrames Sift(IReadOnlyList<SetFrame> frames)
    {
        // As many of each: the larger area stays, since a crop comes out of a whole frame and not the other way.
        IGrouping<Shape, SetFrame>[] groups =
        [
            .. frames.GroupBy(f => Shape.Of(f.Raw.Layout))
                .OrderByDescending(g => g.Count())
                .ThenByDescending(g => (long)g.Key.Width * g.Key.Height)
                .ThenBy(g => g.Key.Width)
                .ThenBy(g => g.Key.Filters, StringComparer.Ordinal),
        ];
        if (groups.Length < 2)
        {
            return new SiftedFrames(frames, []);
        }

        return new SiftedFrames([.. groups[0]], [.. groups.Skip(1).Select(g => FindingOf(g, groups[0].Key))]);
    }

    private static Finding FindingOf(IGrouping<Shape, SetFrame> odd, Shape most) => SetFindings.Warning(
        FindingCode.FrameSizeDiffers,
        odd,
        $"{SetFindings.Count(odd.Count())} of {odd.Key}, where most are {most}; left out.",
        "Check the crop and raw size in the camera's menu, and whether these files belong to this set.");

    private readonly record struct Shape(int Width, int Height, string Filters)
    {
        public static Shape Of(MosaicLayout layout) =>
            new(layout.ActiveArea.Width, layout.ActiveArea.Height, layout.ColourFilterArray.Name);

        public override string ToString() =>
            string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Width} × {Height} photosites {Filters}");
    }
}
