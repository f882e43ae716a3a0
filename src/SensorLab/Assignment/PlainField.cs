namespace SensorLab.Assignment;

/// <summary>What the field looks like, and frames that show something else: everyday pictures.</summary>
/// <remarks>
/// Cells of a frame are divided by the card's usual pattern; what is left after a smooth course along the rows is texture. Bands
/// of pulsed light run along whole rows, hence rows are compared with the eye shut to all but large steps.
/// </remarks>
internal sealed class PlainField
{
    /// <summary>Texture of this share of the signal is no plain field: a field out of focus stays below a hundredth.</summary>
    public const double Textured = 0.08;

    /// <summary>From here to <see cref="Textured"/> it may be either.</summary>
    public const double Doubtful = 0.045;

    /// <summary>Rows that differ by so much from each other are no bands of light.</summary>
    private const double RowsDiffer = 0.5;

    /// <summary>Of a partly clipped frame, cells darker than this share of the lightest are no shading.</summary>
    private const double ClippedShade = 0.25;

    /// <summary>A set has so many lit frames, at least.</summary>
    private const int FewestOfField = 8;

    private const double NoiseDeviations = 5;
    private const double PartlyClipped = 0.01;

    private readonly double[] _pattern;

    private PlainField(double[] pattern) => _pattern = pattern;

    /// <summary>The usual pattern of a card's frames.</summary>
    /// <param name="frames">All frames of one size, with the signal's black.</param>
    /// <remarks>
    /// Of those that are plain by themselves, however many pictures of other things there are; of all where a field is so
    /// textured that none is.
    /// </remarks>
    public static PlainField Of(IReadOnlyList<SeenFrame> frames)
    {
        var bare = new PlainField([]);
        SeenFrame[] told = [.. frames.Where(f => f.LightEv is not null)];
        SeenFrame[] plain = [.. told.Where(f => bare.TextureOf(f) < Textured)];
        double[][] lit = [.. (plain.Length >= FewestOfField ? plain : told).Select(f => Relative(f.Frame.Sample, f.Black.GreenDn))];
        int cells = lit.Length == 0 ? 0 : lit.Min(l => l.Length);
        return new PlainField([.. Enumerable.Range(0, cells).Select(i => Median(lit.Select(l => l[i])))]);
    }

    /// <summary>How much texture a frame shows, as a share of its signal; 0 where noise would do as well or nothing can be told.</summary>
    public double TextureOf(SeenFrame frame)
    {
        if (frame.Frame.Sample.WhiteShare > PartlyClipped)
        {
            double[] clipped = Signals(frame.Frame.Sample, frame.Black.GreenDn);
            return clipped.Min() < ClippedShade * clipped.Max() ? 1 - (clipped.Min() / clipped.Max()) : 0;
        }

        if (frame.SignalDn <= 2 * frame.LimitDn)
        {
            return frame.Black.IsFirm || frame.Frame.Sample.IsEven ? 0 : 1;
        }

        return Texture(Relative(frame.Frame.Sample, frame.Black.GreenDn), _pattern, frame.Frame.Sample, frame.SignalDn);
    }

    /// <summary>How much texture a lit, unclipped frame shows by itself, as a share of its signal.</summary>
    /// <param name="sample">The frame's sample.</param>
    /// <param name="blackDn">Black of green in DN.</param>
    public static double TextureAlone(FrameSample sample, double blackDn) => Texture(Relative(sample, blackDn), [], sample, sample.GreenDn - blackDn);

    private static double Texture(double[] cells, double[] pattern, FrameSample sample, double signalDn)
    {
        double[] divided = [.. cells.Select((c, i) => i < pattern.Length && pattern[i] > 0 ? c / pattern[i] : c)];
        double[][] bands = [.. divided.Chunk(FrameSample.Columns)];
        double[] means = [.. bands.Select(b => b.Average())];
        double rows = (means.Max() - means.Min()) / means.Average();
        double texture = Math.Sqrt(bands.Select(b => Roughness(b)).Average());
        int pixelsOfCell = Math.Max(1, sample.Pixels / cells.Length);
        double noise = sample.PixelNoiseDn / Math.Sqrt(pixelsOfCell) / signalDn;
        double seen = rows > RowsDiffer ? Math.Max(texture, rows) : texture;
        return seen > NoiseDeviations * noise ? Math.Sqrt(Math.Max(0, (seen * seen) - (noise * noise))) : 0;
    }

    /// <summary>Mean square of a band's cells about a parabola along the row.</summary>
    private static double Roughness(double[] band)
    {
        // Orthogonal polynomials over evenly spaced cells: constant, slope, curvature.
        int n = band.Length;
        double mean = band.Average();
        double half = (n - 1) / 2.0;
        double[] first = [.. Enumerable.Range(0, n).Select(i => i - half)];
        double meanSquare = first.Average(x => x * x);
        double[] second = [.. first.Select(x => (x * x) - meanSquare)];
        double slope = first.Zip(band, (x, y) => x * y).Sum() / first.Sum(x => x * x);
        double curvature = second.Zip(band, (x, y) => x * y).Sum() / second.Sum(x => x * x);
        double squares = 0;
        for (int i = 0; i < n; i++)
        {
            double rest = band[i] - mean - (slope * first[i]) - (curvature * second[i]);
            squares += rest * rest;
        }

        return squares / (n - 3) / (mean * mean);
    }

    private static double[] Relative(FrameSample sample, double blackDn)
    {
        double[] signals = Signals(sample, blackDn);
        double mean = signals.Average();
        return [.. signals.Select(s => s / mean)];
    }

    private static double[] Signals(FrameSample sample, double blackDn) => [.. sample.CellsDn.Select(c => Math.Max(0, c - blackDn))];

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }
}
