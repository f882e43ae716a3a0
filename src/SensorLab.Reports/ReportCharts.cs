using SensorLab.Profiles;
using SensorLab.Reports.Drawing;

namespace SensorLab.Reports;

/// <summary>The report's charts one by one, for who shows them while a set grows.</summary>
public static class ReportCharts
{
    /// <summary>The charts of a profile, by name: latitude-ruler, shadow-end, photon-transfer-iso-100 and so on.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    public static IReadOnlyList<string> Names(SensorProfile profile) => [.. ReportWriter.Drawings(profile, ChartFont.OfThisSystem()).Select(d => d.Name)];

    /// <summary>A chart as the report's folder holds it.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="name">One of <see cref="Names"/>.</param>
    /// <param name="isDark">Whether it is for a dark page.</param>
    /// <returns>The SVG; null where the profile has no such chart.</returns>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    public static byte[]? Svg(SensorProfile profile, string name, bool isDark)
    {
        ChartTheme theme = isDark ? ChartTheme.Dark : ChartTheme.Light;
        return ReportWriter.Drawings(profile, ChartFont.OfThisSystem()).FirstOrDefault(d => d.Name == name) is { Drawing: { } drawing }
            ? ChartImage.Svg(drawing, theme, name + theme.Suffix)
            : null;
    }
}
