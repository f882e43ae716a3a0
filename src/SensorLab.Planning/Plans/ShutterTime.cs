using System.Globalization;

namespace SensorLab.Planning.Plans;

/// <summary>An exposure time of a shutter dial with third stops.</summary>
/// <param name="Thirds">Thirds of a stop from one second; negative for shorter times.</param>
/// <remarks>What is engraved is rounded: 1/60 is 1/64 on most bodies and 1/60 on some. Where it matters both are looked at.</remarks>
public readonly record struct ShutterTime(int Thirds) : IComparable<ShutterTime>
{
    /// <summary>The shortest time that a plan knows: 1/32000 s.</summary>
    public static readonly ShutterTime Shortest = new(-45);

    /// <summary>The longest time that a plan knows: 60 s.</summary>
    public static readonly ShutterTime Longest = new(18);

    // As dials of third stops are engraved, from 1/32000 s on.
    private static readonly int[] Reciprocals =
    [
        32000, 25000, 20000, 16000, 12800, 10000, 8000, 6400, 5000, 4000, 3200, 2500, 2000, 1600, 1250, 1000, 800, 640, 500, 400, 320, 250, 200,
        160, 125, 100, 80, 60, 50, 40, 30, 25, 20, 15, 13, 10, 8, 6, 5, 4,
    ];

    // From 1/3 s on.
    private static readonly double[] Seconds = [0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.3, 1.6, 2, 2.5, 3.2, 4, 5, 6, 8, 10, 13, 15, 20, 25, 30, 40, 50, 60];

    /// <summary>What most bodies expose: a power of two of whole thirds, in seconds.</summary>
    public double ExactSeconds => Math.Pow(2, Thirds / 3.0);

    /// <summary>What the dial says, in seconds.</summary>
    public double EngravedSeconds => Index < Reciprocals.Length ? 1.0 / Reciprocals[Index] : Seconds[Index - Reciprocals.Length];

    /// <summary>What the dial says, as text: 1/60, 0.4, 8.</summary>
    public string Label => Index < Reciprocals.Length
        ? string.Create(CultureInfo.InvariantCulture, $"1/{Reciprocals[Index]}")
        : Seconds[Index - Reciprocals.Length].ToString(CultureInfo.InvariantCulture);

    private int Index => Thirds - Shortest.Thirds;

    /// <summary>The dial's time nearest to a time, in stops.</summary>
    /// <param name="seconds">The time in seconds, above 0.</param>
    /// <returns>The time; null where it lies beyond the dial by more than half a step.</returns>
    public static ShutterTime? Nearest(double seconds)
    {
        double thirds = 3 * Math.Log2(seconds);
        if (!double.IsFinite(thirds) || thirds < Shortest.Thirds - 0.5 || thirds > Longest.Thirds + 0.5)
        {
            return null;
        }

        // What is engraved may lie up to 0.3 thirds off the power: the nearest engraving decides.
        int near = (int)Math.Round(thirds);
        return Enumerable.Range(near - 1, 3)
            .Where(t => t >= Shortest.Thirds && t <= Longest.Thirds)
            .Select(t => new ShutterTime(t))
            .MinBy(t => Math.Min(Math.Abs(Math.Log2(t.EngravedSeconds / seconds)), Math.Abs(Math.Log2(t.ExactSeconds / seconds))));
    }

    /// <summary>The time some thirds of a stop longer.</summary>
    /// <param name="thirds">Thirds of a stop; negative for a shorter time.</param>
    public ShutterTime Longer(int thirds) => new(Thirds + thirds);

    /// <inheritdoc/>
    public int CompareTo(ShutterTime other) => Thirds.CompareTo(other.Thirds);

    /// <summary>Whether a time is shorter than another.</summary>
    public static bool operator <(ShutterTime left, ShutterTime right) => left.Thirds < right.Thirds;

    /// <summary>Whether a time is longer than another.</summary>
    public static bool operator >(ShutterTime left, ShutterTime right) => left.Thirds > right.Thirds;

    /// <summary>Whether a time is no longer than another.</summary>
    public static bool operator <=(ShutterTime left, ShutterTime right) => left.Thirds <= right.Thirds;

    /// <summary>Whether a time is no shorter than another.</summary>
    public static bool operator >=(ShutterTime left, ShutterTime right) => left.Thirds >= right.Thirds;
}
