namespace SensorLab.Simulation.Flaws;

/// <summary>What the size of a flaw counts and how large it may be.</summary>
/// <param name="Unit">relative, ev, dn, electron or count, as in findings; empty for a flaw that is there or not.</param>
/// <param name="Default">The size where none is given; 0 for a flaw without size.</param>
/// <param name="Smallest">The smallest size.</param>
/// <param name="Largest">The largest size.</param>
public readonly record struct FlawSize(string Unit, double Default, double Smallest, double Largest)
{
    /// <summary>For a flaw that is there or not.</summary>
    public static FlawSize None => new(string.Empty, 0, 0, 0);

    /// <summary>Whether the flaw has a size at all.</summary>
    public bool IsSized => Unit.Length > 0;

    /// <summary>A fraction.</summary>
    internal static FlawSize Relative(double normal, double largest = 0.95, double smallest = 0) => new("relative", normal, smallest, largest);

    /// <summary>Stops.</summary>
    internal static FlawSize Ev(double normal) => new("ev", normal, 0, 10);

    /// <summary>Codes.</summary>
    internal static FlawSize Dn(double normal, double largest = 1000) => new("dn", normal, 0, largest);

    /// <summary>Electrons.</summary>
    internal static FlawSize Electron(double normal) => new("electron", normal, 0, 1000);

    /// <summary>Things counted.</summary>
    internal static FlawSize Count(int normal, int smallest = 1, int largest = 1_000_000) => new("count", normal, smallest, largest);
}
