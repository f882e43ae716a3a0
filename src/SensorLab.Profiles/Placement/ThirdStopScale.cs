using System.Globalization;

namespace SensorLab.Profiles.Placement;

/// <summary>A camera's dials in thirds of a stop: what is written on them, and what it stands for.</summary>
/// <remarks>
/// The labels are the rounded ones of the trade; the steps beneath are exact thirds, so that "1/60" is 1/64 s and two
/// settings that look a third apart are.
/// </remarks>
public static class ThirdStopScale
{
    /// <summary>Thirds of a stop a stop.</summary>
    public const int StepsAnEv = 3;

    // A setting on no dial of thirds, but within this many of a step, is that step; half stops lie 0.35 or more off.
    private const double LabelTolerance = 0.3;

    // 1/60 written as 0.0167 is still that label.
    private const double LabelPrecision = 0.003;

    // A hair of binary rounding is no step.
    private const double Hair = 1e-9;

    /// <summary>Shutter times from 1/8000 s to 30 s, the shortest first.</summary>
    public static IReadOnlyList<ThirdStop> Shutters { get; } = Scale(-39,
        "1/8000 1/6400 1/5000 1/4000 1/3200 1/2500 1/2000 1/1600 1/1250 1/1000 1/800 1/640 1/500 1/400 1/320 1/250 1/200 1/160 1/125 1/100 1/80 " +
        "1/60 1/50 1/40 1/30 1/25 1/20 1/15 1/13 1/10 1/8 1/6 1/5 1/4 0.3 0.4 0.5 0.6 0.8 1 1.3 1.6 2 2.5 3.2 4 5 6 8 10 13 15 20 25 30");

    /// <summary>F-numbers from 1 to 32.</summary>
    public static IReadOnlyList<ThirdStop> Apertures { get; } = Scale(0,
        "1.0 1.1 1.2 1.4 1.6 1.8 2.0 2.2 2.5 2.8 3.2 3.5 4.0 4.5 5.0 5.6 6.3 7.1 8 9 10 11 13 14 16 18 20 22 25 29 32");

    /// <summary>ISO settings from 50 to 102400.</summary>
    public static IReadOnlyList<ThirdStop> Isos { get; } = Scale(-3,
        "50 64 80 100 125 160 200 250 320 400 500 640 800 1000 1250 1600 2000 2500 3200 4000 5000 6400 8000 10000 12800 16000 20000 25600 32000 40000 51200 64000 80000 102400");

    /// <summary>The nearest whole third of a stop, halves away from zero.</summary>
    /// <param name="ev">EV, finite.</param>
    /// <returns>EV.</returns>
    public static double Nearest(double ev) => Math.Round(ev * StepsAnEv, MidpointRounding.AwayFromZero) / StepsAnEv;

    /// <summary>The least whole third of a stop that is no less.</summary>
    /// <param name="ev">EV, finite.</param>
    /// <returns>EV.</returns>
    public static double Ceiling(double ev) => Math.Ceiling((ev * StepsAnEv) - Hair) / StepsAnEv;

    /// <summary>The greatest whole third of a stop that is no more.</summary>
    /// <param name="ev">EV, finite.</param>
    /// <returns>EV.</returns>
    public static double Floor(double ev) => Math.Floor((ev * StepsAnEv) + Hair) / StepsAnEv;

    /// <summary>The speed of an ISO setting in EV above ISO 100, a rounded label taken for the third that it names.</summary>
    /// <param name="iso">The setting, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The setting is 0 or less.</exception>
    public static double SpeedEv(int iso)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(iso);
        return Named(Isos, iso, StepsAnEv * Math.Log2(iso / 100.0)) / StepsAnEv;
    }

    /// <summary>The thirds of a stop that a shutter time as written stands for.</summary>
    internal static double ShutterThirds(double seconds) => Named(Shutters, seconds, StepsAnEv * Math.Log2(seconds));

    /// <summary>The thirds of a stop that an f-number as written stands for.</summary>
    internal static double ApertureThirds(double fNumber) => Named(Apertures, fNumber, 2 * StepsAnEv * Math.Log2(fNumber));

    // What stands on the dial is its step; else the whole third beside it, or, far from any, the number's own.
    private static double Named(IReadOnlyList<ThirdStop> dial, double number, double thirds)
    {
        foreach (ThirdStop step in dial)
        {
            if (Math.Abs(NumberOf(step.Label) - number) <= LabelPrecision * number)
            {
                return step.Thirds;
            }
        }

        return Math.Abs(thirds - Math.Round(thirds)) <= LabelTolerance ? Math.Round(thirds) : thirds;
    }

    private static double NumberOf(string label) => label.StartsWith("1/", StringComparison.Ordinal)
        ? 1 / double.Parse(label.AsSpan(2), CultureInfo.InvariantCulture)
        : double.Parse(label, CultureInfo.InvariantCulture);

    private static ThirdStop[] Scale(int first, string labels) => [.. labels.Split(' ').Select((label, i) => new ThirdStop(label, first + i))];
}
