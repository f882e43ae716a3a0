using SensorLab.Frames;

namespace SensorLab.Pixels.Tests;

/// <summary>Colour filter arrays that are no 2×2 ones.</summary>
internal static class Patterns
{
    /// <summary>Green in blocks of four and alone, red and blue in every row and column.</summary>
    public const string SixBySixName = "6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG";

    /// <summary>Four photosites under one filter.</summary>
    public const string QuadName = "4x4:RRGGRRGGGGBBGGBB";

    public static ColourFilterArray SixBySix { get; } = ColourFilterArray.FromName(SixBySixName)!.Value;

    public static ColourFilterArray Quad { get; } = ColourFilterArray.FromName(QuadName)!.Value;
}
