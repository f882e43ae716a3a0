namespace SensorLab.Reports.Pages;

/// <summary>The look that all pages share: tokens for light, dark and print, type, tables.</summary>
public static class PageStyle
{
    /// <summary>The common style sheet, as it stands in every page of ours.</summary>
    public static string Common => PageShell.Resource("page.css");
}
