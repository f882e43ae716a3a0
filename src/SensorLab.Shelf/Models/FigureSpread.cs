using SensorLab.Law;
using SensorLab.Profiles;
using SensorLab.Retest;

namespace SensorLab.Shelf.Models;

/// <summary>What bodies of a model differ by in a figure, what that says of a body that nobody measured, and which stand out.</summary>
/// <remarks>
/// Of n bodies with the values xᵢ, each by its newest profile, mean x̄ and standard deviation s with n − 1 degrees of freedom:
/// the next body of the model lies within x̄ ± t·s·√(1 + 1/n), t being Student's quantile of 97.5 % (MeekerHahnEscobar2017, the
/// prediction interval of one further observation). It assumes that the measured bodies are a sample of the model, and normal. s holds the noise and the
/// set-up of one set each, so that the interval is too wide rather than too narrow; and it is never narrower than what one set
/// of one body leaves open, which bodies that agree by chance, or share a meter, do not show. A body stands out where its distance from
/// the mean of the others, in √(1 + 1/(n − 1)) of their standard deviation, is beyond what chance gives once in 20 times for
/// all bodies and figures of the question together (Student with n − 2 degrees of freedom, Bonferroni). The farthest is taken
/// out and the search repeated, for a quarter of the bodies at most, so that one does not hide another.
/// </remarks>
public sealed record FigureSpread
{
    /// <summary>With fewer bodies nothing is said to stand out.</summary>
    public const int FewestToStandOut = 4;

    private const double FamilyLevel = 0.05;
    private const int MostShareOut = 4;

    /// <summary>The figure.</summary>
    public required FigureAddress Address { get; init; }

    /// <summary>The bodies with a value, in the order of values.</summary>
    public required IReadOnlyList<BodyFigure> Bodies { get; init; }

    /// <summary>Bodies whose profile holds a bound in place of a value: they are left out.</summary>
    public required int Bounds { get; init; }

    /// <summary>The bodies' mean.</summary>
    public required double Mean { get; init; }

    /// <summary>The standard deviation between the bodies, what sets differ by included; null for one body.</summary>
    public required double? StandardDeviation { get; init; }

    /// <summary>The figure as it is expected of a body of the model that nobody measured; null for one body, of which nothing follows.</summary>
    public required Figure? Unmeasured { get; init; }

    /// <summary>Bodies that stand out, the farthest first.</summary>
    public required IReadOnlyList<BodyFigure> StandingOut { get; init; }

    /// <summary>Whether there are bodies enough to tell whether one stands out.</summary>
    public bool CanTellWhoStandsOut => Bodies.Count >= FewestToStandOut;

    /// <summary>Reckons with the bodies of a model.</summary>
    /// <param name="address">The figure.</param>
    /// <param name="bodies">The bodies with a value: one or more.</param>
    /// <param name="bounds">How many have a bound.</param>
    /// <param name="family">How many bodies and figures the question looks at in all.</param>
    public static FigureSpread Of(FigureAddress address, IReadOnlyList<BodyFigure> bodies, int bounds, int family)
    {
        int count = bodies.Count;
        double mean = bodies.Average(b => b.Value);
        double? deviation = count > 1 ? DeviationOf(bodies, mean) : null;
        return new FigureSpread
        {
            Address = address,
            Bodies = [.. bodies.OrderBy(b => b.Value).ThenBy(b => b.Profile.Key, StringComparer.Ordinal)],
            Bounds = bounds,
            Mean = mean,
            StandardDeviation = deviation,
            Unmeasured = deviation is { } s ? Predicted(mean, s, Math.Sqrt(bodies.Average(b => b.StandardUncertainty * b.StandardUncertainty)), count) : null,
            StandingOut = [.. OutOf(bodies, Math.Max(1, family))],
        };
    }

    private static Figure Predicted(double mean, double deviation, double ofOneSet, int count)
    {
        double one = Math.Sqrt(1 + (1.0 / count));
        double half = one * Math.Max(StudentTail.Factor95(count - 1) * deviation, Figure.NormalFactor95 * ofOneSet);
        return Figure.Estimate(mean, one * Math.Max(deviation, ofOneSet), mean - half, mean + half, count - 1);
    }

    private static double DeviationOf(IReadOnlyList<BodyFigure> bodies, double mean) =>
        Math.Sqrt(bodies.Sum(b => (b.Value - mean) * (b.Value - mean)) / (bodies.Count - 1));

    private static IEnumerable<BodyFigure> OutOf(IReadOnlyList<BodyFigure> bodies, int family)
    {
        List<BodyFigure> left = [.. bodies];
        while (left.Count >= FewestToStandOut && bodies.Count - left.Count < Math.Max(1, bodies.Count / MostShareOut))
        {
            (BodyFigure farthest, double chance) = left.Select(b => (Body: b, Chance: ChanceOf(b, left))).MinBy(b => b.Chance);
            if (chance * family >= FamilyLevel)
            {
                break;
            }

            left.Remove(farthest);
            yield return farthest;
        }
    }

    // The chance of a body so far from the others, on either side.
    private static double ChanceOf(BodyFigure body, IReadOnlyList<BodyFigure> all)
    {
        int others = all.Count - 1;
        double mean = (all.Sum(b => b.Value) - body.Value) / others;
        double squares = all.Sum(b => (b.Value - mean) * (b.Value - mean)) - ((body.Value - mean) * (body.Value - mean));
        double deviation = Math.Sqrt(Math.Max(0, squares) / (others - 1));

        // Bodies alike to the last digit are no sample: a set's own noise is the least that they differ by.
        double least = all.Max(b => b.StandardUncertainty);
        double scale = Math.Sqrt(1 + (1.0 / others)) * Math.Max(deviation, least);
        double distance = Math.Abs(body.Value - mean);
        return scale > 0 ? Math.Min(1, 2 * StudentTail.Above(distance / scale, others - 1)) : distance > 0 ? 0 : 1;
    }
}
