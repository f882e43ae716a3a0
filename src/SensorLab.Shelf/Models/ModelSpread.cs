namespace SensorLab.Shelf.Models;

/// <summary>The bodies of a model compared, each by its newest profile.</summary>
/// <param name="Name">The model's name, on one line.</param>
/// <param name="Mode">The recording mode that most bodies' newest profiles are of, the only one compared; empty where the frames do not say.</param>
/// <param name="Bodies">How many bodies are compared.</param>
/// <param name="OtherModes">Bodies whose newest profile is of another mode: they are left out.</param>
/// <param name="Figures">One a figure, in the order of ISOs and figures.</param>
public sealed record ModelSpread(string Name, string Mode, int Bodies, int OtherModes, IReadOnlyList<FigureSpread> Figures);
