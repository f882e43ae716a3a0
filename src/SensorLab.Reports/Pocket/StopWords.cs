namespace SensorLab.Reports.Pocket;

/// <summary>Thirds of a stop as cameras write them.</summary>
internal static class StopWords
{
    private const int ThirdsAnEv = 3;

    /// <summary>+1⅓, 0, −⅔.</summary>
    /// <param name="ev">EV, a whole number of thirds.</param>
    public static string Thirds(double ev)
    {
        int thirds = (int)Math.Round(ev * ThirdsAnEv);
        int whole = Math.Abs(thirds) / ThirdsAnEv;
        string part = (Math.Abs(thirds) % ThirdsAnEv) switch { 1 => "⅓", 2 => "⅔", _ => string.Empty };
        string digits = whole > 0 || part.Length == 0 ? whole.ToString(System.Globalization.CultureInfo.InvariantCulture) + part : part;
        return thirds switch { > 0 => "+" + digits, < 0 => "−" + digits, _ => digits };
    }
}
