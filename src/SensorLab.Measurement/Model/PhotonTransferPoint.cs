using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels.Variances;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Model;

/// <summary>One level of a channel as the photon-transfer fit sees it.</summary>
/// <param name="SignalDn">Signal above black in DN.</param>
/// <param name="VarianceDn2">Temporal variance of a pixel in DN², row and column parts taken out.</param>
/// <param name="DegreesOfFreedom">Degrees of freedom of the variance.</param>
/// <param name="Values">Values that the variance rests on: pixels × frames.</param>
public readonly record struct PhotonTransferPoint(double SignalDn, double VarianceDn2, double DegreesOfFreedom, double Values)
{
    /// <summary>Variance of the signal itself in DN²: what a black that moves from frame to frame leaves in it; 0 where black stands still.</summary>
    public double SignalVarianceDn2 { get; init; }

    /// <summary>
    /// A level as the line sees it: its signal is that of the shot noise under a straight response, its variance has the
    /// rounding noise of the dark levels' step even where a maker's curve made its own step wider.
    /// </summary>
    /// <param name="level">A level of two frames or more.</param>
    /// <param name="blackDn">Black in DN.</param>
    /// <param name="response">How recorded signal follows exposure.</param>
    /// <param name="stepDn">Spacing of the dark levels' codes in DN.</param>
    /// <param name="drift">How black drifts, and where it lay in lit frames.</param>
    public static PhotonTransferPoint Of(ObservedLevel level, double blackDn, ResponseCurve response, double stepDn, BlackDrift drift)
    {
        VarianceParts parts = level.Channel.TemporalParts!;
        double degrees = 2 * Math.Pow(parts.PixelDn2 / parts.PixelUncertaintyDn2, 2);
        double litBlack = blackDn + drift.LitShiftDn;
        double signal = level.IsDark ? level.DarkSignalDn.Value : response.ShotSignalOf(level.Channel.MeanDn - litBlack) * FlickerFactor(level, litBlack);
        double widened = RoundingNoise.VarianceDn2(Math.Max(stepDn, level.Channel.CodeStepDn)) - RoundingNoise.VarianceDn2(stepDn);
        return new PhotonTransferPoint(signal, parts.PixelDn2 - widened, degrees, (double)level.Pixels * level.Level.Frames)
        {
            SignalVarianceDn2 = level.IsDark ? level.DarkSignalDn.Variance : drift.OfMean(level.Level.Frames),
        };
    }

    /// <summary>The signal whose shot noise a level's variance holds, over its mean: below 1 where the light of its frames differed.</summary>
    /// <remarks>
    /// Each frame is compared with the sum of the earlier ones, scaled by s to its own light (<see cref="TemporalContrasts"/>):
    /// of f earlier frames, light S_f and S_e in all, the contrast has the shot noise of (S_f + s²·S_e)/(1 + s²·f).
    /// </remarks>
    private static double FlickerFactor(ObservedLevel level, double blackDn)
    {
        IReadOnlyList<double> means = level.Channel.FrameMeansDn;
        double mean = level.Channel.MeanDn - blackDn;
        if (means.Count < 2 || !(mean > 0))
        {
            return 1;
        }

        double earlier = means[0] - blackDn;
        double sum = 0;
        for (int frame = 1; frame < means.Count; frame++)
        {
            double own = means[frame] - blackDn;
            double scale = TemporalContrasts.ScaleOf(own, earlier, frame);
            sum += (own + (scale * scale * earlier)) / (1 + (scale * scale * frame));
            earlier += own;
        }

        return sum / (means.Count - 1) / mean;
    }
}
