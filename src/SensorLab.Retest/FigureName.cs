namespace SensorLab.Retest;

/// <summary>What the name of a figure tells: its unit, whether the meter has a part in it, and its words.</summary>
public static class FigureName
{
    private const string Below = "belowEv";
    private const string Previews = "previews";

    private static readonly Dictionary<string, string> Words = new(StringComparer.Ordinal)
    {
        ["blackLevelDn"] = "black level",
        ["gainElectronPerDn"] = "system gain (e⁻/DN)",
        ["readNoiseElectron"] = "read noise (e⁻)",
        ["readNoiseDn"] = "read noise (DN)",
        ["saturationDn"] = "saturation (DN)",
        ["saturationElectron"] = "saturation (e⁻)",
        ["firstClipDn"] = "first clip (DN)",
        ["prnuPercent"] = "PRNU",
        ["dsnuElectron"] = "DSNU",
        ["rowNoiseElectron"] = "row noise",
        ["columnNoiseElectron"] = "column noise",
        ["dsnuRowElectron"] = "DSNU of rows",
        ["dsnuColumnElectron"] = "DSNU of columns",
        ["prnuRowPercent"] = "PRNU of rows",
        ["prnuColumnPercent"] = "PRNU of columns",
        ["linearityErrorPercent"] = "linearity error",
        ["linearityLargestPercent"] = "largest linearity error",
        ["compressionPercent"] = "compression at saturation",
        ["middleGreyDn"] = "middle grey (DN)",
        ["aboveEv"] = "clip above grey",
        ["firstClipEv"] = "first clip above grey",
        ["bandsEndEv"] = "where bands show",
    };

    /// <summary>Every figure's name, those of criteria and looks by their last part.</summary>
    internal static IReadOnlyList<string> Known { get; } =
        [.. Words.Keys, Below, "perPixel", "spanEv", "atDelivery", "clipEv", "shadowEndEv", "hiddenHeadroomEv", "hiddenShadowEv", "highlightWarningPercent"];

    /// <summary>A figure's name in a photographer's words.</summary>
    /// <param name="name">The name of a figure.</param>
    public static string WordsOf(string name)
    {
        string[] parts = name.Split('.');
        if (parts is [Below, var criterion, var kind] && criterion.StartsWith("snr", StringComparison.Ordinal))
        {
            return kind switch
            {
                "spanEv" => $"span from SNR {criterion[3..]} to clip",
                "atDelivery" => $"shadow end, SNR {criterion[3..]}, delivered",
                _ => $"shadow end at SNR {criterion[3..]}",
            };
        }

        if (parts[0] == Previews)
        {
            string look = string.Join('.', parts[1..^1]);
            return parts[^1] switch
            {
                "clipEv" => $"preview clip, {look}",
                "shadowEndEv" => $"preview's shadow end, {look}",
                "hiddenHeadroomEv" => $"hidden headroom, {look}",
                "hiddenShadowEv" => $"hidden shadow, {look}",
                _ => $"highlight warning, {look}",
            };
        }

        return Words.GetValueOrDefault(name, name);
    }

    /// <summary>
    /// Whether the meter's zero has a part in it: figures from middle grey on. Spans, signals and noise need no meter, and
    /// in hidden headroom and hidden shadow it cancels.
    /// </summary>
    /// <param name="name">The name of a figure.</param>
    public static bool IsMeterTied(string name) =>
        name is "middleGreyDn" or "aboveEv" or "firstClipEv" or "bandsEndEv"
        || (name.StartsWith(Below, StringComparison.Ordinal) && !name.EndsWith("spanEv", StringComparison.Ordinal))
        || (name.StartsWith(Previews, StringComparison.Ordinal) && (name.EndsWith("clipEv", StringComparison.Ordinal) || name.EndsWith("shadowEndEv", StringComparison.Ordinal)));

    /// <summary>Whether a figure counts stops below middle grey: screens and tables show it, and its difference, with the sign turned, down is minus.</summary>
    /// <param name="name">The name of a figure.</param>
    public static bool CountsDown(string name) =>
        name == "bandsEndEv" || (name.StartsWith(Below, StringComparison.Ordinal) && !name.EndsWith("spanEv", StringComparison.Ordinal));

    /// <summary>Whether a figure counts stops above middle grey: screens and tables show it with its sign.</summary>
    /// <param name="name">The name of a figure.</param>
    public static bool CountsUp(string name) => name is "aboveEv" or "firstClipEv" || (name.StartsWith(Previews, StringComparison.Ordinal) && name.EndsWith(".clipEv", StringComparison.Ordinal));

    /// <summary>The unit of a difference where no margin names one.</summary>
    internal static MarginUnit UnitOf(string name) => name switch
    {
        "blackLevelDn" => MarginUnit.Dn,
        _ when IsEv(name) => MarginUnit.Ev,
        _ => MarginUnit.Relative,
    };

    /// <summary>Whether a margin in a unit makes sense for a figure.</summary>
    internal static bool Allows(string name, MarginUnit unit) => unit switch
    {
        MarginUnit.Ev => true,
        MarginUnit.Dn => name.EndsWith("Dn", StringComparison.Ordinal) && name != "gainElectronPerDn",
        _ => !IsEv(name),
    };

    /// <summary>Whether a figure counts stops.</summary>
    /// <param name="name">The name of a figure.</param>
    public static bool IsEv(string name) =>
        name.EndsWith("Ev", StringComparison.Ordinal) || name.StartsWith(Below, StringComparison.Ordinal) || name is "perPixel" or "atDelivery";
}
