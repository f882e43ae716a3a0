using SensorLab.Measurement.Statistics;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Noise;

/// <summary>The temporal variance of a level, split into pixel, row and column parts.</summary>
/// <remarks>
/// Frame k is compared with the sum of the frames before it, scaled to its light: n frames give n − 1 independent
/// contrasts (Helmert's), whose two-way analysis of variance yields the parts. For two frames it is EMVA 1288 R4's
/// two-image method with the field's shading removed.
/// </remarks>
internal sealed class TemporalContrasts
{
    /// <summary>Signal in DN below which light steps between frames cannot matter and the frames are not scaled.</summary>
    private const double SmallestScaledSignalDn = 2;

    private readonly ChannelStatistics _channel;
    private readonly double[] _signals;
    private double _pixelSquares;
    private double _rowSquares;
    private double _columnSquares;

    private TemporalContrasts(ChannelStatistics channel, double blackDn)
    {
        _channel = channel;
        _signals = channel.Frames.Select(f => (f.Sum / channel.Pixels) - blackDn).ToArray();
    }

    /// <summary>Temporal variance parts of a channel.</summary>
    /// <param name="channel">Statistics of two frames or more.</param>
    /// <param name="blackDn">Black level in DN.</param>
    public static VarianceParts Of(ChannelStatistics channel, double blackDn)
    {
        var contrasts = new TemporalContrasts(channel, blackDn);
        double earlierSquares = channel.Frames[0].Squares;
        for (int frame = 1; frame < channel.Frames.Count; frame++)
        {
            contrasts.Add(frame, earlierSquares);
            earlierSquares += channel.Frames[frame].Squares + (2 * channel.Frames[frame].Products);
        }

        return contrasts.ToParts();
    }

    private void Add(int frame, double earlierSquares)
    {
        FrameMoments own = _channel.Frames[frame];
        double scale = ScaleOf(frame);
        double total = 0;
        double rows = 0;
        for (int row = 0; row < _channel.Rows; row++)
        {
            double difference = own.RowSums[row] - (scale * SumBefore(frame, f => f.RowSums[row]));
            rows += difference * difference;
            total += difference;
        }

        double columns = 0;
        for (int column = 0; column < _channel.Columns; column++)
        {
            double difference = own.ColumnSums[column] - (scale * SumBefore(frame, f => f.ColumnSums[column]));
            columns += difference * difference;
        }

        double mean = total * total / _channel.Pixels;
        double norm = 1 + (scale * scale * frame);
        double squares = own.Squares - (2 * scale * own.Products) + (scale * scale * earlierSquares) - mean;
        double rowSquares = (rows / _channel.Columns) - mean;
        double columnSquares = (columns / _channel.Rows) - mean;
        _rowSquares += rowSquares / norm;
        _columnSquares += columnSquares / norm;
        _pixelSquares += (squares - rowSquares - columnSquares) / norm;
    }

    private double ScaleOf(int frame)
    {
        double before = _signals.Take(frame).Sum();
        return before > SmallestScaledSignalDn * frame && _signals[frame] > SmallestScaledSignalDn ? _signals[frame] / before : 1.0 / frame;
    }

    private double SumBefore(int frame, Func<FrameMoments, double> of)
    {
        double sum = 0;
        for (int i = 0; i < frame; i++)
        {
            sum += of(_channel.Frames[i]);
        }

        return sum;
    }

    private VarianceParts ToParts()
    {
        double contrasts = _channel.Frames.Count - 1;
        double rowDegrees = contrasts * (_channel.Rows - 1);
        double columnDegrees = contrasts * (_channel.Columns - 1);
        double pixelDegrees = rowDegrees * (_channel.Columns - 1);
        double pixel = Math.Max(0, _pixelSquares) / pixelDegrees;
        double row = _rowSquares / rowDegrees;
        double column = _columnSquares / columnDegrees;
        double pixelUncertainty = pixel * Math.Sqrt(2 / pixelDegrees);
        return new VarianceParts
        {
            PixelDn2 = pixel,
            PixelUncertaintyDn2 = pixelUncertainty,
            RowDn2 = (row - pixel) / _channel.Columns,
            RowUncertaintyDn2 = double.Hypot(row * Math.Sqrt(2 / rowDegrees), pixelUncertainty) / _channel.Columns,
            ColumnDn2 = (column - pixel) / _channel.Rows,
            ColumnUncertaintyDn2 = double.Hypot(column * Math.Sqrt(2 / columnDegrees), pixelUncertainty) / _channel.Rows,
        };
    }
}
