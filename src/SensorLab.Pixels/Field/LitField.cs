namespace SensorLab.Pixels.Field;

/// <summary>How a lit level's first frame shows the field.</summary>
/// <param name="Map">The map of the frame.</param>
/// <param name="BlackDn">Black level in DN.</param>
/// <param name="Dark">A dark frame of about the same exposure time, whose hot pixels are no light; null where there is none.</param>
public sealed record LitField(FieldMap Map, double BlackDn, FieldMap? Dark = null)
{
    /// <summary>A cell's noise as a share of the mean signal; NaN without signal.</summary>
    public double RelativeNoise => Map.MeanDn > BlackDn ? Map.NoiseDn / (Map.MeanDn - BlackDn) : double.NaN;

    /// <summary>Cells that no region may hold, rows × columns; null where all may serve.</summary>
    internal bool[]? LeftOut { get; init; }

    /// <summary>A cell's signal in DN; 0 in a cell that is left out.</summary>
    /// <param name="row">Row of the cell.</param>
    /// <param name="column">Column of the cell.</param>
    public double SignalDn(int row, int column) => LeftOut?[(row * Map.Columns) + column] == true ? 0 : Map[row, column] - (Dark is { } dark ? dark[row, column] : BlackDn);
}
