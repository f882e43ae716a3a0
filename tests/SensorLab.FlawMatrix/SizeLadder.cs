using SensorLab.Simulation.Flaws;

namespace SensorLab.FlawMatrix;

/// <summary>Five sizes of a flaw, from invisible to severe.</summary>
internal static class SizeLadder
{
    /// <summary>Shares of the catalogue's own size, for flaws that grow with it.</summary>
    private static readonly double[] Shares = [0.01, 0.1, 0.3, 1, 3];

    /// <summary>Flaws that count, that shrink with their size, or that the shares would take out of what can happen.</summary>
    private static readonly Dictionary<string, double[]> Own = new(StringComparer.Ordinal)
    {
        ["black-clipped"] = [64, 6, 3, 1, 0],
        ["channel-scaled"] = [0.0005, 0.005, 0.03, 0.12, 0.5],
        ["dark-current"] = [0.05, 0.5, 5, 50, 500],
        ["dark-missing"] = [1, 2, 3],
        ["depth-mixed"] = [1, 2, 3, 4, 6],
        ["exposure-inexact"] = [0.0005, 0.005, 0.03, 0.1, 0.5],
        ["frame-duplicate"] = [1, 2, 3, 5, 8],
        ["frame-incomplete"] = [1, 2, 3, 5, 8],
        ["frame-size-differs"] = [1, 2, 3, 5, 8],
        ["frame-unassigned"] = [1, 2, 3, 5, 8],
        ["frame-unreadable"] = [1, 2, 3, 5, 8],
        ["frame-unsuitable"] = [1, 2, 3, 5, 8],
        ["gain-digital"] = [1, 1.02, 1.25, 2, 8],
        ["gain-switch"] = [0.005, 0.05, 0.15, 0.4, 0.8],
        ["iso-disagrees"] = [0.001, 0.01, 0.05, 0.15, 0.6],
        ["levels-declared"] = [0.1, 0.5, 2, 8, 100],
        ["levels-too-few"] = [100, 3, 2, 1, 0],
        ["light-banded"] = [0.002, 0.02, 0.1, 0.3, 1],
        ["light-drift"] = [0.003, 0.03, 0.1, 0.3, 1],
        ["light-flicker"] = [0.0003, 0.003, 0.01, 0.05, 0.2],
        ["light-stepped"] = [0.05, 0.333, 1, 6, 10],
        ["lines-dead"] = [1, 2, 3, 4, 6],
        ["metered-doubtful"] = [0.005, 0.05, 0.2, 0.7, 2],
        ["metered-missing"] = [1, 2, 3],
        ["model-rejected"] = [0.0002, 0.001, 0.003, 0.01, 0.05],
        ["noise-below-step"] = [0.48, 0.4, 0.3, 0.22, 0.15],
        ["noise-banded"] = [0.05, 0.3, 1, 4, 20],
        ["pair-missing"] = [1, 2, 3, 5, 8],
        ["pixels-hot"] = [1, 5, 40, 200, 1000],
        ["raw-companded"] = [1, 2, 8, 24, 64],
        ["raw-filtered"] = [0.003, 0.03, 0.1, 0.3, 0.9],
        ["response-nonlinear"] = [0.0005, 0.005, 0.02, 0.05, 0.25],
        ["target-uneven"] = [0.003, 0.03, 0.1, 0.3, 0.8],
    };

    /// <summary>The sizes at which a flaw is tried; one, null, for a flaw that is there or not.</summary>
    public static IReadOnlyList<double?> Of(FlawDescription flaw)
    {
        if (!flaw.Size.IsSized)
        {
            return [null];
        }

        IEnumerable<double> sizes = Own.TryGetValue(flaw.Code, out double[]? own) ? own : Shares.Select(share => Default(flaw.Size, share));
        return [.. sizes.Select(size => Math.Clamp(size, flaw.Size.Smallest, flaw.Size.Largest)).Distinct().Select(size => (double?)size)];
    }

    private static double Default(FlawSize size, double share) =>
        size.Unit == "count" ? Math.Max(1, Math.Round(size.Default * share)) : Math.Round(size.Default * share, 6);
}
