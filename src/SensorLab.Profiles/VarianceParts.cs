namespace SensorLab.Profiles;

/// <summary>A variance split as EMVA 1288 R4 does into pixel, row and column parts, in DN², each with its standard uncertainty.</summary>
/// <remarks>The parts are unbiased estimates: a part that is zero in truth may come out slightly negative.</remarks>
public sealed record VarianceParts
{
    /// <summary>The part that is independent from pixel to pixel.</summary>
    public required double PixelDn2 { get; init; }

    /// <summary>Standard uncertainty of the pixel part.</summary>
    public required double PixelUncertaintyDn2 { get; init; }

    /// <summary>The part that pixels of a row share.</summary>
    public required double RowDn2 { get; init; }

    /// <summary>Standard uncertainty of the row part.</summary>
    public required double RowUncertaintyDn2 { get; init; }

    /// <summary>The part that pixels of a column share.</summary>
    public required double ColumnDn2 { get; init; }

    /// <summary>Standard uncertainty of the column part.</summary>
    public required double ColumnUncertaintyDn2 { get; init; }
}
