using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>What sets of an unchanged body differ by beyond their stated uncertainty: light set up anew, temperature, the meter's zero.</summary>
/// <remarks>
/// For each figure the sets' scatter about their group's mean, s² with ν degrees of freedom, less the mean stated
/// variance, is the variance τ² of one set (not below 0). Channels of an ISO share what differs and count as one; ISOs
/// count each for itself. In a difference of two sets 2τ² joins the stated variance V, with ν·V²/(4s⁴) degrees of freedom
/// (Welch and Satterthwaite, JCGM 100:2008, equation G.2b, with 2s² in the place of the part that is estimated).
/// </remarks>
internal sealed class Reproducibility
{
    private readonly Dictionary<string, Spread> _spreads = new(StringComparer.Ordinal);

    private Reproducibility()
    {
    }

    /// <summary>No repeat, no part.</summary>
    public static Reproducibility None { get; } = new();

    public bool IsKnown => _spreads.Count > 0;

    /// <summary>Learns from groups of sets of one body and firmware.</summary>
    /// <param name="groups">Figures of the sets of each group; groups of one teach nothing.</param>
    /// <param name="margins">Tells the scale of each figure.</param>
    public static Reproducibility Of(IReadOnlyList<IReadOnlyList<IReadOnlyDictionary<FigureAddress, Figure>>> groups, RetestMargins margins)
    {
        var sums = new Dictionary<string, List<(int Iso, double Squares, double Stated, int Freedom)>>(StringComparer.Ordinal);
        foreach (IReadOnlyList<IReadOnlyDictionary<FigureAddress, Figure>> group in groups.Where(g => g.Count > 1))
        {
            foreach (FigureAddress address in group[0].Keys)
            {
                MarginUnit unit = margins.UnitOf(address.Name);
                (double Value, double Uncertainty)[] sets =
                    [.. group.Where(s => s.ContainsKey(address)).Select(s => FigureDifference.OnScale(s[address], address.Name, unit)).OfType<(double, double)>()];
                if (sets.Length > 1)
                {
                    double mean = sets.Average(s => s.Value);
                    if (!sums.TryGetValue(address.Name, out var list))
                    {
                        sums[address.Name] = list = [];
                    }

                    list.Add((address.Iso, sets.Sum(s => (s.Value - mean) * (s.Value - mean)), sets.Average(s => s.Uncertainty * s.Uncertainty), sets.Length - 1));
                }
            }
        }

        var known = new Reproducibility();
        foreach ((string name, List<(int Iso, double Squares, double Stated, int Freedom)> list) in sums)
        {
            var isos = list.GroupBy(l => l.Iso).Select(g => (Squares: g.Average(l => l.Squares), Stated: g.Average(l => l.Stated), Freedom: g.Average(l => l.Freedom))).ToArray();
            double freedom = isos.Sum(i => i.Freedom);
            double scatter = isos.Sum(i => i.Squares) / freedom;
            double stated = isos.Sum(i => i.Stated * i.Freedom) / freedom;
            known._spreads[name] = new Spread(scatter, Math.Max(0, scatter - stated), freedom);
        }

        return known;
    }

    /// <summary>The variance that it adds to a difference; 0 where nothing is known.</summary>
    public double VarianceOf(string name) => _spreads.TryGetValue(name, out Spread spread) ? 2 * spread.Variance : 0;

    /// <summary>The degrees of freedom of a difference with it; the stated ones where it adds nothing.</summary>
    /// <param name="name">The figure.</param>
    /// <param name="stated">The difference as stated.</param>
    public double FreedomOf(string name, FigureDifference stated)
    {
        if (!_spreads.TryGetValue(name, out Spread spread) || spread.Scatter <= 0)
        {
            return stated.DegreesOfFreedom;
        }

        double variance = stated.Variance + (2 * spread.Variance);
        return Math.Min(stated.DegreesOfFreedom, spread.Freedom * variance * variance / (4 * spread.Scatter * spread.Scatter));
    }

    private readonly record struct Spread(double Scatter, double Variance, double Freedom);
}
