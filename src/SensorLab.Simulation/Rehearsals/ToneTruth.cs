namespace SensorLab.Simulation.Rehearsals;

/// <summary>A point of a look's curve.</summary>
/// <param name="Ev">EV from middle grey as metered.</param>
/// <param name="Code">The code, not rounded.</param>
public readonly record struct ToneTruth(double Ev, double Code);
