namespace SensorLab.Debrief;

/// <summary>The camera's own picture over a grid on the frame: the highest of the mean codes of red, green and blue in each part.</summary>
/// <param name="Columns">Parts a row.</param>
/// <param name="Rows">Rows of parts.</param>
/// <param name="Codes">0 to 255, row by row as the sensor lay; null where the picture does not show the part.</param>
public sealed record PreviewTones(int Columns, int Rows, IReadOnlyList<double?> Codes)
{
    /// <summary>A part whose code is this or more is blown.</summary>
    private const double BlownCode = 254;

    /// <summary>A part whose code is below this shows tone.</summary>
    private const double ToneCode = 250;

    /// <summary>Stops below the clip from which a raw part is held beyond doubt.</summary>
    private const double HeldEv = 0.1;

    private const double Thousandth = 0.001;

    /// <summary>Compares it with the raw frame.</summary>
    internal (bool BlewRawHeld, bool HidClipped) Against(FrameCells cells, HeadroomMap map)
    {
        (long blew, long hid, long all) = (0, 0, 0);
        for (int part = 0; part < Codes.Count; part++)
        {
            (int left, int right) = Bounds(part % Columns, Columns, cells.Columns);
            (int top, int bottom) = Bounds(part / Columns, Rows, cells.Rows);
            int count = (right - left) * (bottom - top);
            all += count;
            if (Codes[part] is not { } code || count == 0)
            {
                continue;
            }

            (bool isHeld, bool isGone) = (true, true);
            for (int y = top; y < bottom; y++)
            {
                for (int x = left; x < right; x++)
                {
                    float ev = map.SurfaceEv[(y * cells.Columns) + x];
                    isHeld &= ev > HeldEv && !map.IsClipped[(y * cells.Columns) + x];
                    isGone &= ev <= 0;
                }
            }

            blew += code >= BlownCode && isHeld ? count : 0;
            hid += code < ToneCode && isGone ? count : 0;
        }

        return (IsSeen(blew), IsSeen(hid));

        bool IsSeen(long part) => part > 0 && part >= Thousandth * all;
    }

    private static (int From, int To) Bounds(int index, int parts, int cells) => (index * cells / parts, (index + 1) * cells / parts);
}
