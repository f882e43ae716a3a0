namespace SensorLab.Simulation.Writing;

/// <summary>How a DNG holds its mosaic.</summary>
public enum DngCompression
{
    /// <summary>As numbers of 16 bits, or packed.</summary>
    None,

    /// <summary>Deflate (zlib), as TIFF's compression 8.</summary>
    Deflate,
}
