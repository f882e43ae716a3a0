namespace SensorLab.Profiles.Placement;

/// <summary>The ends of a scene by its spot readings.</summary>
/// <param name="LowEv">The darkest textured reading, in EV from middle grey.</param>
/// <param name="HighEv">The brightest textured reading, no lower than <paramref name="LowEv"/>.</param>
public readonly record struct SceneRange(double LowEv, double HighEv);
