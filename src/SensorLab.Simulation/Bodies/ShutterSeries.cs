namespace SensorLab.Simulation.Bodies;

/// <summary>The exposure times that a body offers: whole steps down from the slowest.</summary>
public sealed record ShutterSeries
{
    /// <summary>Shortest exposure time in seconds, above 0.</summary>
    public double FastestSeconds { get; init; } = 1.0 / 8000;

    /// <summary>Longest exposure time in seconds, above <see cref="FastestSeconds"/>.</summary>
    public double SlowestSeconds { get; init; } = 30;

    /// <summary>Steps a stop: 1, 2 or 3.</summary>
    public int StepsPerStop { get; init; } = 3;

    /// <summary>Exposure times from the fastest to the slowest, in seconds; exact powers, not engraved figures.</summary>
    internal double[] Seconds()
    {
        // The millionth keeps a range of whole steps from losing one to rounding.
        int steps = (int)Math.Floor((Math.Log2(SlowestSeconds / FastestSeconds) * StepsPerStop) + 1e-6);
        var seconds = new double[steps + 1];
        for (int i = 0; i <= steps; i++)
        {
            seconds[i] = FastestSeconds * Math.Pow(2, (double)i / StepsPerStop);
        }

        return seconds;
    }
}
