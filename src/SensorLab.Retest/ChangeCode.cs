namespace SensorLab.Retest;

/// <summary>The codes of changes.</summary>
public static class ChangeCode
{
    /// <summary>The black level moved.</summary>
    public const string BlackMoved = "black-moved";

    /// <summary>Raw data are smoothed in one set and not, or less, in the other.</summary>
    public const string FilterChanged = "filter-changed";

    /// <summary>Middle grey moved against saturation.</summary>
    public const string IsoShifted = "iso-shifted";

    /// <summary>The second conversion gain begins at another ISO.</summary>
    public const string GainSwitchMoved = "gain-switch-moved";

    /// <summary>Bits, loss, crop or the spacing of codes differ.</summary>
    public const string RawFormatChanged = "raw-format-changed";

    /// <summary>The files declare another white level.</summary>
    public const string WhiteDeclaredChanged = "white-declared-changed";

    /// <summary>The preview clips elsewhere, or has another tone curve.</summary>
    public const string PreviewChanged = "preview-changed";
}
