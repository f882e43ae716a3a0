using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Cards;

/// <summary>A frame on a card, and what it truly is.</summary>
/// <param name="File">Path on the card with forward slashes.</param>
/// <param name="Shot">The frame as it is exposed; its number draws its noise.</param>
/// <param name="Camera">The rehearsal whose camera exposes it.</param>
/// <param name="BelongsToSet">Whether it is a frame of the set; else an everyday picture, a test shot or another body's.</param>
/// <param name="IsTestShot">Whether it is a plain frame of the field that no plan has.</param>
public sealed record CardFrame(string File, PlannedFrame Shot, RehearsalPlan Camera, bool BelongsToSet, bool IsTestShot = false);
