using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>The colours of a chart on a light or a dark page.</summary>
/// <remarks>
/// The hues are those of Okabe and Ito's open palette for all colour visions ("Color Universal Design", 2008),
/// lightened or darkened where a page would swallow them; no chart relies on hue alone.
/// </remarks>
internal sealed record ChartTheme
{
    /// <summary>The name that file names carry; empty for the light theme.</summary>
    public required string Suffix { get; init; }

    /// <summary>The page.</summary>
    public required SKColor Page { get; init; }

    /// <summary>Text and axes.</summary>
    public required SKColor Ink { get; init; }

    /// <summary>Secondary text.</summary>
    public required SKColor Quiet { get; init; }

    /// <summary>Grid lines.</summary>
    public required SKColor Grid { get; init; }

    /// <summary>A faint ground for zones.</summary>
    public required SKColor Zone { get; init; }

    /// <summary>What lies above middle grey.</summary>
    public required SKColor Headroom { get; init; }

    /// <summary>What lies below middle grey, and total SNR.</summary>
    public required SKColor Shadow { get; init; }

    /// <summary>Temporal SNR, and red.</summary>
    public required SKColor Warm { get; init; }

    /// <summary>The first green.</summary>
    public required SKColor Green { get; init; }

    /// <summary>The second green.</summary>
    public required SKColor SecondGreen { get; init; }

    /// <summary>For a light page and for print.</summary>
    public static ChartTheme Light { get; } = new()
    {
        Suffix = string.Empty,
        Page = SKColor.Parse("#FFFFFF"),
        Ink = SKColor.Parse("#1B1B1B"),
        Quiet = SKColor.Parse("#55595D"),
        Grid = SKColor.Parse("#DDDFE1"),
        Zone = SKColor.Parse("#F1F2F3"),
        Headroom = SKColor.Parse("#E69F00"),
        Shadow = SKColor.Parse("#0072B2"),
        Warm = SKColor.Parse("#D55E00"),
        Green = SKColor.Parse("#009E73"),
        SecondGreen = SKColor.Parse("#00543D"),
    };

    /// <summary>For a dark page.</summary>
    public static ChartTheme Dark { get; } = new()
    {
        Suffix = "-dark",
        Page = SKColor.Parse("#15181B"),
        Ink = SKColor.Parse("#ECEDEE"),
        Quiet = SKColor.Parse("#AEB4BA"),
        Grid = SKColor.Parse("#33383D"),
        Zone = SKColor.Parse("#20252A"),
        Headroom = SKColor.Parse("#E69F00"),
        Shadow = SKColor.Parse("#56B4E9"),
        Warm = SKColor.Parse("#F0793A"),
        Green = SKColor.Parse("#00B886"),
        SecondGreen = SKColor.Parse("#8FE3C8"),
    };

    /// <summary>Both themes, the light one first.</summary>
    public static IReadOnlyList<ChartTheme> All { get; } = [Light, Dark];
}
