namespace SensorLab.Simulation.Writing;

/// <summary>How a DNG holds its mosaic.</summary>
public enum DngCompression
{
    /// <summary>As numbers of 16 bits, or packed.</summary>
    None,

    /// <summary>Deflate (zlib), as TIFF's compression 8.</summary>
    Deflate,

    /// <summary>Lossless JPEG (ITU-T T.81, process 14), as TIFF's compression 7.</summary>
    Lossless,
}
