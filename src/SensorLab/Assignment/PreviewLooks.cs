using System.Globalization;
using SensorLab.Frames;
using SensorLab.Imaging;
using SensorLab.Measurement.Previews;
using SensorLab.RawFiles.Previews;

namespace SensorLab.Assignment;

/// <summary>Frames of several looks that nobody named: one exposure shot again later, whose previews differ while the raw frames do not.</summary>
internal sealed class PreviewLooks
{
    /// <summary>Previews of one look differ by less, in codes of 255, where the light does.</summary>
    private const double OtherLookCodes = 4;

    /// <summary>Raw signals of one light, as a share.</summary>
    private const double SameSignal = 0.02;

    /// <summary>Exposures of an ISO whose previews are compared: in the lights, the mid-tones and the shadows.</summary>
    private static readonly double[] ComparedShares = [0.5, 0.12, 0.02];

    /// <summary>Share of a side in whose midst previews are compared.</summary>
    private const int MidstOf = 3;

    private readonly string _folder;
    private readonly Dictionary<string, SampledFrame> _frames;
    private readonly Dictionary<string, int> _order;

    private PreviewLooks(string folder, IReadOnlyList<SampledFrame> frames)
    {
        _folder = folder;
        _frames = frames.ToDictionary(f => f.File);
        _order = ShotOrder.Of(frames).Index().ToDictionary(f => f.Item.File, f => f.Index);
    }

    /// <summary>The questions that previews ask; none where no exposure was shot again, or the looks are known.</summary>
    /// <param name="folder">The card's folder.</param>
    /// <param name="frames">Its frames.</param>
    /// <param name="assigned">What they serve for.</param>
    /// <param name="cancellation">Stops the look.</param>
    public static IReadOnlyList<AssignmentQuestion> Questions(string folder, IReadOnlyList<SampledFrame> frames, IReadOnlyList<AssignedFrame> assigned, CancellationToken cancellation)
    {
        var looks = new PreviewLooks(folder, frames);
        return
        [
            .. assigned
                .Where(f => f is { IsSure: true, Use: { Role: FrameRole.Bracket, Look: null }, Iso: not null } && looks._frames[f.File].Raw.Metadata.Look is null)
                .GroupBy(f => f.Iso!.Value)
                .Select(iso => looks.QuestionOf(iso.Key, [.. iso], cancellation))
                .OfType<AssignmentQuestion>(),
        ];
    }

    private AssignmentQuestion? QuestionOf(int iso, AssignedFrame[] bracket, CancellationToken cancellation)
    {
        SampledFrame[][] again =
        [
            .. bracket.GroupBy(f => (_frames[f.File].Raw.Metadata.ExposureSeconds, f.Use.LightStep))
                .Select(g => g.Select(f => _frames[f.File]).OrderBy(f => _order[f.File]).ToArray())
                .Where(IsShotAgain),
        ];
        if (again.Length == 0)
        {
            return null;
        }

        double codes = ComparedShares
            .Select(share => again.MinBy(g => Math.Abs(Math.Log2(Math.Max(ShareOf(g[0]), double.Epsilon) / share)))!)
            .Distinct()
            .Max(g => CodesApart(g, cancellation));
        return codes < OtherLookCodes
            ? null
            : new AssignmentQuestion(
                [.. again.SelectMany(g => g).Select(f => f.File)],
                string.Create(CultureInfo.InvariantCulture, $"At ISO {iso} previews of one exposure differ by {codes:0} of 255 codes: were they shot in several looks? Name each frame's look in the column look of frames.csv, and assign again."));
    }

    // Other frames were taken between.
    private bool IsShotAgain(SampledFrame[] setting) => _order[setting[^1].File] - _order[setting[0].File] >= setting.Length;

    private static double ShareOf(SampledFrame frame)
    {
        double black = frame.Raw.Declared.BlackDn.Values.DefaultIfEmpty(0).Average();
        return (frame.Sample.GreenDn - black) / ((frame.Raw.Declared.WhiteDn ?? ((1 << frame.Raw.Layout.BitDepth) - 1)) - black);
    }

    /// <summary>By how much the previews of one exposure differ, in codes; 0 where the light does too, or there are none.</summary>
    private double CodesApart(SampledFrame[] setting, CancellationToken cancellation)
    {
        double least = setting.Min(ShareOf);
        if (setting.Max(ShareOf) - least > SameSignal * least)
        {
            return 0;
        }

        var codes = new List<double>();
        foreach (SampledFrame frame in setting)
        {
            cancellation.ThrowIfCancellationRequested();
            if (GreenOf(frame) is { } code)
            {
                codes.Add(code);
            }
        }

        return codes.Count == 0 ? 0 : codes.Max() - codes.Min();
    }

    private double? GreenOf(SampledFrame frame)
    {
        PixelRectangle active = frame.Raw.Layout.ActiveArea;
        try
        {
            if (PreviewExtractor.Find(Path.Combine(_folder, frame.File), active.Width >= active.Height) is not { } preview)
            {
                return null;
            }

            var midst = new PixelRectangle(preview.WidthPixels / MidstOf, preview.HeightPixels / MidstOf, preview.WidthPixels / MidstOf, preview.HeightPixels / MidstOf);
            return midst.Area == 0 ? null : CodeMedian.Of([.. JpegCodes.Of(preview.Jpeg, preview.WidthPixels, preview.HeightPixels, midst).Green]);
        }
        catch (Exception e) when (e is ImagingLibraryMissingException or MalformedFileException or IOException or UnauthorizedAccessException)
        {
            // Without a preview nothing is asked; what measures previews says why there is none.
            return null;
        }
    }
}
