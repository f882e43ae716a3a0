using SensorLab.Profiles;
using SensorLab.Reports.Charts;
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
    /// <summary>The lamp's light over the set's time, for a set that grows.</summary>
    /// <param name="readings">What single frames tell of it, in any order.</param>
    /// <param name="body">The body's name.</param>
    /// <param name="hasTimes">Whether the frames have times; else they are counted.</param>
    /// <param name="isDark">Whether it is for a dark page.</param>
    /// <returns>The SVG.</returns>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    public static byte[] Lamp(IReadOnlyList<LampReading> readings, string body, bool hasTimes, bool isDark)
    {
        ChartTheme theme = isDark ? ChartTheme.Dark : ChartTheme.Light;
        return ChartImage.Svg(new PlotDrawing(LampChart.From(readings, body, hasTimes), ChartFont.OfThisSystem()), theme, "lamp" + theme.Suffix);
    }
}
