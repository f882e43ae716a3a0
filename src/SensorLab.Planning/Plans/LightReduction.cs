using System.Globalization;

namespace SensorLab.Planning.Plans;

/// <summary>How light is taken away without dimming a lamp: by its distance as far as a room goes, else by grey filters.</summary>
internal static class LightReduction
{
    /// <summary>Four times the distance is four stops; a lamp a metre away is then at the other end of a large room.</summary>
    private const double MostStopsByDistance = 4;

    /// <summary>Density of a filter that takes one stop: log10 of 2.</summary>
    private const double DensityAStop = 0.30103;

    /// <summary>A filter as it is sold: "6 stops (density 1.8)".</summary>
    /// <param name="stops">Stops, above 0.</param>
    public static string Filter(double stops) => Text($"{stops:0.#} stop{(stops == 1 ? string.Empty : "s")} (density {stops * DensityAStop:0.0})");

    /// <summary>How to take light away.</summary>
    /// <param name="stops">Stops less, above 0.</param>
    /// <returns>As in "4.2 stops less light: a grey filter of 4.2 stops (density 1.3)"; the distance where a room has it.</returns>
    public static string Less(double stops)
    {
        string amount = Text($"{stops:0.#} stop{(stops == 1 ? string.Empty : "s")} less light");
        return stops <= MostStopsByDistance
            ? Text($"{amount} ({Math.Pow(2, stops / 2):0.#} times the distance, or a grey filter of density {stops * DensityAStop:0.0})")
            : $"{amount} (a grey filter of {Filter(stops)}, two before each other if need be; no room has the distance)";
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
