namespace SensorLab.Shelf.Models;

/// <summary>A figure of a body, as its newest profile holds it.</summary>
/// <param name="Profile">The profile.</param>
/// <param name="Value">The value, in the figure's unit.</param>
/// <param name="StandardUncertainty">What the body's own value is known to: the figure's budget where it has one, else the sampling of that one set.</param>
public sealed record BodyFigure(ShelvedProfile Profile, double Value, double StandardUncertainty);
