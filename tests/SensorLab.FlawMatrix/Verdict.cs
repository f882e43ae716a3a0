namespace SensorLab.FlawMatrix;

/// <summary>What came of a flawed set.</summary>
internal enum Verdict
{
    /// <summary>Every figure is right.</summary>
    Right,

    /// <summary>A figure is wide, a bound or absent, and a finding names the flaw.</summary>
    Found,

    /// <summary>A figure is printed that does not hold the truth, though a finding names the flaw.</summary>
    Printed,

    /// <summary>A figure is not right, and nothing says so: the worst that can happen.</summary>
    Neither,
}
