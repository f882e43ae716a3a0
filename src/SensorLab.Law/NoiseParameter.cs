namespace SensorLab.Law;

/// <summary>The parameters that every figure of a channel follows from, in the order of a noise model's vector.</summary>
public enum NoiseParameter
{
    /// <summary>Black level in DN.</summary>
    BlackDn,

    /// <summary>System gain K in DN/e⁻.</summary>
    GainDnPerElectron,

    /// <summary>Temporal variance of a pixel without light in DN², quantisation included, row and column noise not.</summary>
    InterceptDn2,

    /// <summary>Temporal variance of rows in DN².</summary>
    RowDn2,

    /// <summary>Temporal variance of columns in DN².</summary>
    ColumnDn2,

    /// <summary>DSNU² of pixels in DN².</summary>
    PixelDsnuSquareDn2,

    /// <summary>DSNU² of rows in DN².</summary>
    RowDsnuSquareDn2,

    /// <summary>DSNU² of columns in DN².</summary>
    ColumnDsnuSquareDn2,

    /// <summary>PRNU² of pixels as a share of the signal, squared.</summary>
    PixelPrnuSquare,

    /// <summary>PRNU² of rows.</summary>
    RowPrnuSquare,

    /// <summary>PRNU² of columns.</summary>
    ColumnPrnuSquare,

    /// <summary>Mean of the metered frames in DN, black included.</summary>
    GreyMeanDn,

    /// <summary>Mean on the plateau in DN, black included.</summary>
    SaturationMeanDn,

    /// <summary>Bend of the response in 1/DN; 0 where it is straight.</summary>
    BendPerDn,
}
