namespace SensorLab.Planning.Plans;

/// <summary>The exposure times that a body offers, in third stops.</summary>
/// <param name="Fastest">The shortest.</param>
/// <param name="Slowest">The longest.</param>
public readonly record struct ShutterRange(ShutterTime Fastest, ShutterTime Slowest)
{
    /// <summary>What most bodies offer: 1/8000 to 30 s.</summary>
    public static ShutterRange Common { get; } = new(new ShutterTime(-39), new ShutterTime(15));

    /// <summary>All times, the shortest first.</summary>
    public IEnumerable<ShutterTime> Times
    {
        get
        {
            ShutterTime first = Fastest;
            return Enumerable.Range(0, Math.Max(0, Slowest.Thirds - Fastest.Thirds + 1)).Select(first.Longer);
        }
    }
}
