using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>What a rehearsal is of.</summary>
public sealed record RehearsalOptions
{
    /// <summary>The body.</summary>
    public VirtualBody Body { get; init; } = new();

    /// <summary>The ISO settings, each one that the body has; empty for the body's lowest, third and fifth, as far as it has them.</summary>
    public IReadOnlyList<int> IsoValues { get; init; } = [];

    /// <summary>Columns of the active area in place of the body's; null for the body's.</summary>
    public int? WidthPixels { get; init; }

    /// <summary>Rows of the active area in place of the body's; null for the body's.</summary>
    public int? HeightPixels { get; init; }

    /// <summary>The seed of light, noise and meter; the body's fixed patterns have their own.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>How the light falls on the field.</summary>
    public FieldShape Field { get; init; }

    /// <summary>What to shoot, in shooting order; empty for the simulator's own sets. Names its ISOs itself.</summary>
    public IReadOnlyList<ScriptedShot> Script { get; init; } = [];

    /// <summary>What goes wrong; each flaw once.</summary>
    public IReadOnlyList<FlawRequest> Flaws { get; init; } = [];

    /// <summary>The form of the files.</summary>
    public DngOptions Form { get; init; } = new();

    /// <summary>Threads that expose and write, 1 or more; null for one a core. The files don't hang on it.</summary>
    public int? Jobs { get; init; }
}
