using SensorLab.Frames;

namespace SensorLab.Assignment;

/// <summary>Draws the sample of a frame: a few bands of rows, as far as they can be had without decoding the rest.</summary>
public static class FrameSampler
{
    /// <summary>Bands where reading can begin near them.</summary>
    private const int Bands = 5;

    /// <summary>Rows of a band.</summary>
    private const int BandRows = 16;

    /// <summary>Of a frame that can only be decoded from its top, the share that is read: an eighth of the work of reading it all.</summary>
    private const int TopShare = 8;

    /// <summary>Draws the sample.</summary>
    /// <param name="reader">The frame, at its first row.</param>
    /// <returns>The sample.</returns>
    /// <exception cref="MalformedFileException">The frame's data are damaged.</exception>
    public static FrameSample Of(IMosaicReader reader)
    {
        PixelRectangle active = reader.Frame.Layout.ActiveArea;
        var meter = new SampleMeter(reader.Frame);
        int restart = reader.RestartRows;
        bool isNear = restart * Bands <= active.Height;
        int reach = isNear ? active.Height : Math.Min(active.Height, Math.Max(Bands * BandRows, active.Height / TopShare));
        int rows = RowsOfBand(reach);
        var row = new ushort[reader.Frame.Layout.WidthPixels];
        int at = 0;
        for (int band = 0; band < Bands; band++)
        {
            int wanted = active.Y + StartOf(band, reach);
            int start = Math.Max(at, isNear ? Math.Max(active.Y, wanted / restart * restart) : wanted);
            if (start + rows > active.Bottom)
            {
                break;
            }

            reader.SkipRows(start - at);
            meter.StartBand();
            for (int i = 0; i < rows; i++)
            {
                reader.ReadRows(row);
                meter.AddRow(start + i - active.Y, row.AsSpan(active.X, active.Width));
            }

            at = start + rows;
        }

        return meter.ToSample();
    }

    /// <summary>Where a row lies in the bands of a frame that is read from its first row to its last.</summary>
    /// <param name="row">The row's number in the active area.</param>
    /// <param name="height">Rows of the active area.</param>
    /// <returns>Whether a band begins with it, and whether it lies in one.</returns>
    internal static (bool Begins, bool IsIn) BandAt(int row, int height)
    {
        int rows = RowsOfBand(height);
        for (int band = 0; band < Bands; band++)
        {
            int behind = row - StartOf(band, height);
            if (behind >= 0 && behind < rows)
            {
                return (behind == 0, true);
            }
        }

        return (false, false);
    }

    private static int RowsOfBand(int reach) => Math.Clamp(reach / Bands, 1, BandRows);

    private static int StartOf(int band, int reach) => (reach * ((2 * band) + 1) / (2 * Bands)) - (RowsOfBand(reach) / 2);
}
