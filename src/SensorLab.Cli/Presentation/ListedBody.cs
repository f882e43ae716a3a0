using SensorLab.Profiles;
using SensorLab.Retest;
using SensorLab.Shelf;

namespace SensorLab.Cli.Presentation;

/// <summary>A body as the list shows it.</summary>
/// <param name="Body">The body.</param>
/// <param name="Newest">Its newest profile, the one to use.</param>
/// <param name="HasModes">Whether its profiles are of several recording modes.</param>
/// <param name="Profiles">The profiles that are listed, by time: one or more.</param>
/// <param name="Gaps">What it lacks.</param>
/// <param name="Figures">The figures that were asked for, by the profiles' keys; null where none were.</param>
internal sealed record ListedBody(
    ShelfBody Body, ShelvedProfile Newest, bool HasModes, IReadOnlyList<ShelvedProfile> Profiles, BodyGaps Gaps, ILookup<string, (FigureAddress Address, Figure Figure)>? Figures)
{
    /// <summary>A body with those of its profiles that are listed; null where none is.</summary>
    /// <param name="all">Its profiles, by time.</param>
    /// <param name="gaps">What it lacks.</param>
    /// <param name="isListed">Which are listed.</param>
    /// <param name="figures">The figures that were asked for.</param>
    public static ListedBody? Of(IReadOnlyList<ShelvedProfile> all, BodyGaps gaps, Func<ShelvedProfile, bool> isListed, ILookup<string, (FigureAddress Address, Figure Figure)>? figures)
    {
        ShelvedProfile[] listed = [.. all.Where(isListed)];
        return listed.Length == 0 ? null : new ListedBody(all[0].Body, all[^1], all.Select(p => p.Mode).Distinct().Count() > 1, listed, gaps, figures);
    }
}
