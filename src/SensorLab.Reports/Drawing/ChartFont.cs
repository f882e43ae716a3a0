using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>The typeface that charts and sheets are set in.</summary>
/// <param name="Family">The family found on this system.</param>
internal sealed record ChartFont(string Family)
{
    /// <summary>What SVG names behind the family, for readers that lack it; Verdana has its widths.</summary>
    public const string Fallback = "Verdana, sans-serif";

    private const string FirstChoice = "DejaVu Sans";

    // What the charts print beside plain letters and digits.
    private const string NeededSigns = "AZaz09−±²⁻·≥→×°";

    private static readonly string[] Preferred =
        [FirstChoice, "Verdana", "Noto Sans", "Liberation Sans", "Segoe UI", "Helvetica Neue", "Helvetica", "Arial"];

    private readonly SKTypeface _regular = SKTypeface.FromFamilyName(Family, SKFontStyle.Normal);
    private readonly SKTypeface _bold = SKTypeface.FromFamilyName(Family, SKFontStyle.Bold);

    /// <summary>The best font of this system.</summary>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    public static ChartFont OfThisSystem() => Choose(SKFontManager.Default.FontFamilies, GlyphsOf);

    /// <summary>Chooses among families: the first preferred one that holds all signs, any that holds all, any that holds letters.</summary>
    /// <param name="families">The installed families.</param>
    /// <param name="hasGlyphs">Whether a family holds all signs of a text.</param>
    /// <exception cref="FontsMissingException">No family holds letters.</exception>
    internal static ChartFont Choose(IEnumerable<string> families, Func<string, string, bool> hasGlyphs)
    {
        string[] installed = [.. families.Order(StringComparer.Ordinal)];
        string[] ordered = [.. Preferred.Where(installed.Contains), .. installed];
        string? family = ordered.FirstOrDefault(name => hasGlyphs(name, NeededSigns))
            ?? ordered.FirstOrDefault(name => hasGlyphs(name, "AZaz09"));
        return family is null ? throw new FontsMissingException() : new ChartFont(family);
    }

    /// <summary>The font at a size.</summary>
    /// <param name="size">Height of the em in units of the canvas.</param>
    /// <param name="bold">Whether it is bold.</param>
    /// <returns>A font that the caller disposes of.</returns>
    /// <remarks>Unhinted: letters rounded to the pixels of a screen stand too far apart in print.</remarks>
    public SKFont At(float size, bool bold) => new(bold ? _bold : _regular, size)
    {
        Subpixel = true,
        LinearMetrics = true,
        Hinting = SKFontHinting.None,
        Edging = SKFontEdging.Antialias,
    };

    private static bool GlyphsOf(string family, string text)
    {
        // Not disposed of: a typeface is one object for all who ask for it, other threads' charts among them.
        SKTypeface? typeface = SKFontManager.Default.MatchFamily(family);
        return typeface is not null && typeface.ContainsGlyphs(text);
    }
}
