namespace SensorLab.Measurement.Field;

/// <summary>What the spot meter's window holds of a channel.</summary>
/// <param name="MeanDn">Mean over all frames of a level in DN, defective pixels left out.</param>
/// <param name="Pixels">Sites of the channel.</param>
/// <param name="Rows">Rows that hold them.</param>
/// <param name="Columns">Columns that hold them.</param>
internal readonly record struct SpotView(double MeanDn, long Pixels, int Rows, int Columns);
