namespace SensorLab.Simulation.Flaws;

/// <summary>When a flaw has its turn among several, so that their order on the command line does not matter.</summary>
internal enum FlawTurn
{
    /// <summary>Before the others: flaws that add frames, which the others then reach too.</summary>
    First,

    /// <summary>In the order in which they are asked for.</summary>
    Usual,

    /// <summary>After the others: flaws that copy what came out.</summary>
    Last,
}
