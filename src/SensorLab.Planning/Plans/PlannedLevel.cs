namespace SensorLab.Planning.Plans;

/// <summary>A level of a bracket.</summary>
/// <param name="Time">Its exposure time.</param>
/// <param name="Filters">How often the light is reduced by <see cref="IsoLayoutBuilder.FilterStops"/>.</param>
/// <param name="Ev">EV from middle grey.</param>
internal readonly record struct PlannedLevel(ShutterTime Time, int Filters, double Ev);
