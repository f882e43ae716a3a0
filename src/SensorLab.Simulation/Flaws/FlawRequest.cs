using System.Globalization;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>A flaw asked for.</summary>
/// <param name="Code">The code of the finding that tells of it.</param>
/// <param name="Size">Its size in the unit of the catalogue; null for the default.</param>
public sealed record FlawRequest(string Code, double? Size = null)
{
    /// <summary>Reads CODE or CODE=SIZE.</summary>
    /// <param name="text">The text.</param>
    /// <returns>The request; its code and the limits of its size are checked here.</returns>
    /// <exception cref="RehearsalUsageException">The code is unknown (the message names those known), or the size is no number or out of its limits.</exception>
    public static FlawRequest Parse(string text)
    {
        string[] parts = text.Split('=', 2);
        double? size = null;
        if (parts.Length == 2)
        {
            if (!double.TryParse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture, out double parsed))
            {
                throw new RehearsalUsageException($"The size of flaw {parts[0]} is no number: {parts[1]}.");
            }

            size = parsed;
        }

        var request = new FlawRequest(parts[0].Trim(), size);
        FlawCatalogue.Resolve(request);
        return request;
    }
}
