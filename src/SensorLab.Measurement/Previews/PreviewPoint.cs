namespace SensorLab.Measurement.Previews;

/// <summary>One frame's preview: how much light there was, and what it shows.</summary>
/// <param name="Level">Which level of the ISO the frame belongs to.</param>
/// <param name="Ev">EV of green from middle grey.</param>
/// <param name="R">Median code of red.</param>
/// <param name="G">Median code of green.</param>
/// <param name="B">Median code of blue.</param>
internal readonly record struct PreviewPoint(int Level, double Ev, double R, double G, double B);
