using System.Collections.Immutable;

namespace SensorLab.Profiles;

/// <summary>What frames and levels serve for, by the names that documents and folders have for it.</summary>
public static class RoleName
{
    /// <summary>No light: black level and read noise.</summary>
    public const string Dark = "dark";

    /// <summary>The exposure at which the camera's own spot meter reads zero on the field: middle grey.</summary>
    public const string Metered = "metered";

    /// <summary>An exposure around the metered one.</summary>
    public const string Bracket = "bracket";

    /// <summary>A metered neutral field under another, named light: channel ratios only.</summary>
    public const string Light = "light";

    /// <summary>The order in which documents and screens list them.</summary>
    public static ImmutableArray<string> InOrder { get; } = [Dark, Metered, Bracket, Light];

    /// <summary>Whether frames of a role are of the field in the set's own light: signal and noise against exposure.</summary>
    /// <param name="role">The role; null where there is none.</param>
    public static bool IsLit(string? role) => role is Bracket or Metered;

    /// <summary>Whether frames of a role were taken at the spot meter's zero.</summary>
    /// <param name="role">The role; null where there is none.</param>
    public static bool IsAtMetersZero(string? role) => role is Metered or Light;
}
