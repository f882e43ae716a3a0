using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>Something that goes wrong in a rehearsal, named for the finding that tells of it.</summary>
internal interface IFlaw
{
    /// <summary>The finding's code.</summary>
    string Code { get; }

    /// <summary>What its size means, in one line.</summary>
    string Meaning { get; }

    /// <summary>Unit, default and limits of its size.</summary>
    FlawSize Size { get; }

    /// <summary>When it has its turn.</summary>
    FlawTurn Turn => FlawTurn.Usual;

    /// <summary>Changes the body, and with it the truth.</summary>
    /// <param name="body">The body so far.</param>
    /// <param name="isoValues">The ISO settings of the rehearsal.</param>
    /// <param name="size">The size.</param>
    VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size) => body;

    /// <summary>Changes the planned frames: their light, their readout, what they say, their files, or whether they are there.</summary>
    /// <param name="scene">The frames and the size.</param>
    void ChangePlan(FlawScene scene)
    {
    }
}
