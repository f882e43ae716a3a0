using SensorLab.Frames;
using SensorLab.Live;
using SensorLab.Pixels.Field;
using SensorLab.Sets;

namespace SensorLab;

/// <summary>Chooses where to measure: what the user named, else the most evenly lit area of a lit frame, which all levels then have to confirm.</summary>
internal sealed class AreaChooser(RawFileAccess files, string folder, CharacterisationOptions options, SetMemory? memory = null)
{
    /// <summary>Share of the white level at which a frame shows the field best: near middle grey, far from both ends.</summary>
    private const double BestShareOfWhite = 0.15;

    private const int FramesTried = 5;

    /// <summary>Chooses the area of a set.</summary>
    /// <exception cref="CharacterisationOptionsException">The region or spot that the user named does not lie in the frames.</exception>
    public MeasurementArea Choose(FrameSet set, CancellationToken cancellation)
    {
        MosaicLayout layout = set.Levels[0].Frames[0].Raw.Layout;
        (PixelRectangle region, double? missing) = options.Region is { } named
            ? (new PixelRectangle(named.X, named.Y, named.Width, named.Height), null)
            : FindRegion(set, layout, cancellation);
        return AreaOf(set, region) with { FieldMissing = missing };
    }

    /// <summary>The area with a region already chosen.</summary>
    /// <exception cref="CharacterisationOptionsException">The region or spot that the user named does not lie in the frames.</exception>
    public MeasurementArea AreaOf(FrameSet set, PixelRectangle region)
    {
        MosaicLayout layout = set.Levels[0].Frames[0].Raw.Layout;
        try
        {
            return MeasurementArea.Of(layout, region, options.Spot);
        }
        catch (ArgumentOutOfRangeException e) when (options.Region is not null || options.Spot is not null)
        {
            string option = e.ParamName == "spotCentre" ? "--spot" : "--region";
            throw new CharacterisationOptionsException(option, FirstLineOf(e), "Count photosites from the active area's top left, and stay inside it.");
        }
    }

    // The exception's own text appends parameter and value on further lines, or in brackets.
    private static string FirstLineOf(ArgumentOutOfRangeException e) => e.Message.Split([" (Parameter", "\n"], 2, StringSplitOptions.None)[0].Trim();

    private (PixelRectangle Region, double? FieldMissing) FindRegion(FrameSet set, MosaicLayout layout, CancellationToken cancellation)
    {
        int iso = set.Levels[0].Key.Iso;
        FieldMap? dark = Maps(set, iso, FrameRole.Dark, 1, cancellation).FirstOrDefault();
        double black = dark?.MeanDn ?? 0;
        double white = set.Levels[0].Frames[0].Raw.Declared.WhiteDn ?? (1 << layout.BitDepth) - 1;
        double best = black + (BestShareOfWhite * (white - black));
        FieldMap? lit = Maps(set, iso, FrameRole.Metered, 1, cancellation).FirstOrDefault()
            ?? Maps(set, iso, FrameRole.Bracket, FramesTried, cancellation).MinBy(m => Math.Abs(m.MeanDn - best));
        var whole = new PixelRectangle(0, 0, layout.ActiveArea.Width, layout.ActiveArea.Height);
        PixelRectangle region = lit is null ? whole : RegionFinder.Find(new LitField(lit, black, dark), layout.ActiveArea);
        return (region, region == whole ? null : lit!.MissingShare(black));
    }

    /// <summary>Maps of some frames of a role, evenly over its levels; frames that cannot be read are passed over, since measuring names them.</summary>
    private IEnumerable<FieldMap> Maps(FrameSet set, int iso, FrameRole role, int count, CancellationToken cancellation)
    {
        Level[] levels = [.. set.Levels.Where(l => l.Key.Iso == iso && l.Key.Role == role)];
        for (int i = 0; i < Math.Min(count, levels.Length); i++)
        {
            cancellation.ThrowIfCancellationRequested();
            int level = count == 1 ? levels.Length / 2 : i * (levels.Length - 1) / Math.Max(1, Math.Min(count, levels.Length) - 1);
            if (MapOf(levels[level].Frames[0]) is { } map)
            {
                yield return map;
            }
        }
    }

    private FieldMap? MapOf(SetFrame frame)
    {
        try
        {
            string path = Path.Combine(folder, frame.File);
            return memory?.Map(SetMemory.StampOf(path), () => Drawn(path)) ?? Drawn(path);
        }
        catch (Exception e) when (e is MalformedFileException or UnsupportedFileException or IOException)
        {
            return null;
        }
    }
    private FieldMap Drawn(string path)
    {
        using IMosaicReader reader = files.Open(path);
        return FieldMap.Of(reader);
    }
}
