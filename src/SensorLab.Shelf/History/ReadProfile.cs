using SensorLab.Profiles;

namespace SensorLab.Shelf.History;

/// <summary>A profile of the shelf, its figures read.</summary>
/// <param name="Profile">The profile.</param>
/// <param name="Figures">What <see cref="ProfileShelf.ReadFigures"/> reads of it.</param>
public sealed record ReadProfile(ShelvedProfile Profile, SensorProfile Figures);
