namespace SensorLab.Measurement.Previews;

/// <summary>A point of one channel's tone curve.</summary>
/// <param name="Ev">EV of green from middle grey.</param>
/// <param name="Code">Code, 0 to 255.</param>
internal readonly record struct ToneNode(double Ev, double Code);
