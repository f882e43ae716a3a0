namespace SensorLab.Reports.Targets;

/// <summary>A paper that sheets are laid out for, upright.</summary>
public enum PaperSize
{
    /// <summary>ISO 216 A4: 210 × 297 mm.</summary>
    A4,

    /// <summary>ISO 216 A3: 297 × 420 mm.</summary>
    A3,

    /// <summary>North American letter: 8½ × 11 inches, 215.9 × 279.4 mm.</summary>
    Letter,
}
