using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Measurement.Findings.Response;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Light;

/// <summary>exposure-inexact: signal and nominal exposure disagree from level to level, all channels alike.</summary>
/// <remarks>
/// Judged by second differences along the bracket, which a lamp's drift or a smooth response does not reach; a smooth law
/// of the shutter is not seen, as the profile's assumptions say.
/// </remarks>
internal sealed class ExposureInexactCheck : IIsoCheck
{
    /// <summary>1/100 EV: a tenth of a third-stop's own rounding.</summary>
    private const double SmallestEv = 0.01;

    /// <summary>Where one level's absence brings the scatter down this much, it is that level alone.</summary>
    private const double OutlierRatio = 5;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        if (evidence.Response.Value is not { } fit)
        {
            yield break;
        }

        ResponsePoint[] points = [.. fit.Points];
        double flicker = FlickerVariance(evidence);
        (double ev, double deviations, int worst, double largest) = Scatter(points, flicker);
        if (!(ev > SmallestEv && deviations > Significance.Deviations))
        {
            yield break;
        }

        ResponsePoint[] rest = [.. points.Where((_, i) => i != worst)];
        double without = rest.Length < 3 ? 0 : Scatter(rest, flicker).Ev;
        bool alone = without < ev / OutlierRatio;
        FormattableString what = alone
            ? (FormattableString)$"At ISO {evidence.Iso} the exposure of {points[worst].Level.Record.ExposureSeconds:G3} s stands out by {largest:F2} EV from the others: another light, or a shutter that was off."
            : $"At ISO {evidence.Iso} exposures differ from their nominal values by {ev:F2} EV from level to level, most at {points[worst].Level.Record.ExposureSeconds:G3} s.";
        yield return FlawFinding.Note(
            FindingCode.ExposureInexact,
            evidence.Iso,
            alone ? largest : ev,
            "ev",
            $"{what} Compensated: noise and latitude go by each frame's own signal; linearity error and a clip found between two levels do not.",
            alone ? "Name the light in the lightStep column of frames.csv if you moved it; else nothing to do." : "Nothing to do; for a linearity error that counts, use the electronic shutter and a fixed aperture.")
            .In(alone ? [points[worst].Level] : points.Select(p => p.Level));
    }

    /// <summary>What flickering light adds to the variance of ln(exposure) of a level.</summary>
    private static double FlickerVariance(IsoEvidence evidence)
    {
        (EvidenceLevel Level, FrameLight Light)[] levels = [.. LitFrames.Of(evidence).Where(l => l.Level.Role == FrameRole.Bracket)];
        return levels.Length == 0 ? 0 : Math.Max(0, levels.Average(l => l.Light.ExcessSquares / l.Light.DegreesOfFreedom / l.Level.Record.Frames));
    }

    /// <summary>Standard deviation of the levels' own exposure error in EV, how far it is beyond chance, and the worst level.</summary>
    private static (double Ev, double Deviations, int Worst, double LargestEv) Scatter(ResponsePoint[] points, double flicker)
    {
        double squares = 0;
        double noise = 0;
        int count = points.Length - 2;
        int worst = 1;
        double largest = 0;
        for (int i = 1; i <= count; i++)
        {
            // Steps of exposure may differ: the middle level is compared with the line between its neighbours.
            double place = Place(points, i);
            double off = points[i].LogExposure - (place * points[i + 1].LogExposure) - ((1 - place) * points[i - 1].LogExposure);
            double norm = 1 + (place * place) + ((1 - place) * (1 - place));
            squares += off * off / norm;
            noise += (Math.Pow(points[i].Uncertainty, 2) + Math.Pow(place * points[i + 1].Uncertainty, 2) + Math.Pow((1 - place) * points[i - 1].Uncertainty, 2)) / norm;
            if (Math.Abs(off) > largest)
            {
                (largest, worst) = (Math.Abs(off), i);
            }
        }

        double excess = Math.Max(0, (squares / count) - flicker);

        // Neighbouring differences share levels: half of them count as independent.
        return (Math.Sqrt(excess) / Math.Log(2), ChiSquareTest.Deviations(count / 2.0 * squares / (noise + (count * flicker)), count / 2.0), worst, largest / Math.Log(2));
    }

    private static double Place(ResponsePoint[] points, int i)
    {
        double before = Math.Log(points[i - 1].Level.Record.ExposureSeconds);
        return (Math.Log(points[i].Level.Record.ExposureSeconds) - before) / (Math.Log(points[i + 1].Level.Record.ExposureSeconds) - before);
    }
}
