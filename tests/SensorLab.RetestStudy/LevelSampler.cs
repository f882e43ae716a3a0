using MathNet.Numerics.Distributions;
using SensorLab.Profiles;

namespace SensorLab.RetestStudy;

/// <summary>
/// Draws the level records of an ISO from their sampling distributions: variances from χ², means from the normal
/// distribution, what pixels and rows share with its own degrees of freedom. No pixel is drawn.
/// </summary>
internal sealed class LevelSampler(StudyBody body, StudyIso iso, StudySetting setting, double darkElectronPerSecond, Random random)
{
    private const double DarkShortSeconds = 1.0 / 4000;
    private const double DarkLongSeconds = 0.2;

    /// <summary>A spot meter looks at a twentieth of the region.</summary>
    private const double SpotShare = 1.0 / 20;

    /// <summary>Neighbours are compared in a quarter of the pixels.</summary>
    private const double NeighbourShare = 0.25;

    private double Pixels => (double)setting.Rows * setting.Columns;

    /// <summary>A level of mean light.</summary>
    /// <param name="role">dark, metered or bracket.</param>
    /// <param name="seconds">Exposure time.</param>
    /// <param name="electron">Mean electrons of a green pixel; 0 for dark.</param>
    /// <param name="frames">Frames.</param>
    public LevelRecord Level(string role, double seconds, double electron, int frames) => new()
    {
        Role = role,
        ExposureSeconds = seconds,
        ApertureFNumber = 5.6,
        Frames = frames,
        PixelsPerChannel = (long)Pixels,
        RowsPerChannel = setting.Rows,
        Channels = [.. StudyBody.Channels.Select(c => Channel(c.Name, role, electron * c.Sensitivity, seconds, frames))],
    };

    public IEnumerable<LevelRecord> Darks() =>
        [Level("dark", DarkShortSeconds, 0, setting.DarkFrames), Level("dark", DarkLongSeconds, 0, setting.DarkFrames)];

    private LevelChannel Channel(string name, string role, double electron, double seconds, int frames)
    {
        double gain = iso.GainElectronPerDn;
        double dark = darkElectronPerSecond * seconds;
        double light = (electron + dark) / gain;
        bool isFull = light > iso.SaturationDn;
        double signal = Math.Min(light, iso.SaturationDn);
        double row = Square(StudyBody.RowNoiseElectron / gain);
        double own = 1 - body.FilterShare;
        double kept = (own * own) + (body.FilterShare * body.FilterShare / 4);
        double read = Square(iso.ReadNoiseElectron / gain) - row;
        double pixel = (kept * (read + (isFull ? 0 : signal / gain))) + (1.0 / 12);
        double pattern = isFull ? 0 : Square(StudyBody.DsnuElectron / gain) + Square(StudyBody.PrnuFraction * signal);
        VarianceParts temporal = Temporal(pixel, row, frames);
        VarianceParts fixedPattern = Fixed(pattern, pixel, row, temporal, frames);
        double meanVariance = ((pixel / Pixels) + (row / setting.Rows)) / frames;
        double stated = Math.Sqrt(meanVariance + (pattern / Pixels));
        double mean = iso.BlackDn + signal + Drawn(Math.Sqrt(meanVariance));
        double neighbours = 1 / Math.Sqrt(Pixels * NeighbourShare);
        double correlation = body.FilterShare / 2 * own / kept;
        bool isMetered = role == "metered";
        return new LevelChannel
        {
            Name = name,
            MeanDn = mean,
            MeanUncertaintyDn = stated,
            FrameMeansDn = [.. Enumerable.Repeat(mean, frames)],
            SpotMeanDn = isMetered ? iso.BlackDn + signal + Drawn(Math.Sqrt(((pixel / Pixels / SpotShare) + (row / setting.Rows * 4)) / frames)) : null,
            SpotMeanUncertaintyDn = isMetered ? Math.Sqrt((((pixel / frames) + pattern) / Pixels / SpotShare) + (row / setting.Rows * 4 / frames)) : null,
            TemporalVarianceDn2 = temporal.PixelDn2 + temporal.RowDn2 + temporal.ColumnDn2,
            TemporalParts = temporal,
            FixedPatternVarianceDn2 = fixedPattern.PixelDn2 + fixedPattern.RowDn2 + fixedPattern.ColumnDn2,
            FixedPatternParts = fixedPattern,
            NeighbourCorrelation = new NeighbourCorrelation(correlation + Drawn(neighbours), correlation + Drawn(neighbours), neighbours),
        };
    }

    private VarianceParts Temporal(double pixel, double row, int frames)
    {
        double contrasts = frames - 1;
        double measured = pixel * Scatter(contrasts * Pixels);
        double rowMeans = (row + (pixel / setting.Columns)) * Scatter(contrasts * setting.Rows);
        double columnMeans = pixel / setting.Rows * Scatter(contrasts * setting.Columns);
        return new VarianceParts
        {
            PixelDn2 = measured,
            PixelUncertaintyDn2 = measured * Math.Sqrt(2 / (contrasts * Pixels)),
            RowDn2 = rowMeans - (measured / setting.Columns),
            RowUncertaintyDn2 = rowMeans * Math.Sqrt(2 / (contrasts * setting.Rows)),
            ColumnDn2 = columnMeans - (measured / setting.Rows),
            ColumnUncertaintyDn2 = columnMeans * Math.Sqrt(2 / (contrasts * setting.Columns)),
        };
    }

    // The variance of the frames' mean, less what temporal noise leaves in it.
    private VarianceParts Fixed(double pattern, double pixel, double row, VarianceParts temporal, int frames)
    {
        double inMean = pattern + (pixel / frames);
        double rowInMean = (row / frames) + (inMean / setting.Columns);
        double columnInMean = inMean / setting.Rows;
        double measured = inMean * Scatter(Pixels);
        return new VarianceParts
        {
            PixelDn2 = measured - (temporal.PixelDn2 / frames),
            PixelUncertaintyDn2 = double.Hypot(inMean * Math.Sqrt(2 / Pixels), temporal.PixelUncertaintyDn2 / frames),
            RowDn2 = (rowInMean * Scatter(setting.Rows)) - (measured / setting.Columns) - (temporal.RowDn2 / frames),
            RowUncertaintyDn2 = double.Hypot(rowInMean * Math.Sqrt(2.0 / setting.Rows), temporal.RowUncertaintyDn2 / frames),
            ColumnDn2 = (columnInMean * Scatter(setting.Columns)) - (measured / setting.Rows) - (temporal.ColumnDn2 / frames),
            ColumnUncertaintyDn2 = double.Hypot(columnInMean * Math.Sqrt(2.0 / setting.Columns), temporal.ColumnUncertaintyDn2 / frames),
        };
    }

    private double Scatter(double freedom) => Gamma.Sample(random, freedom / 2, freedom / 2);

    private double Drawn(double deviation) => Normal.Sample(random, 0, 1) * deviation;

    private static double Square(double number) => number * number;
}
