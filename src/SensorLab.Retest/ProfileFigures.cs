using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>Every figure that a profile holds, by its address.</summary>
public static class ProfileFigures
{
    /// <summary>The figures of a profile, in the document's order.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="withDelivery">Whether the shadow ends at the delivery size count: they compare at one size only.</param>
    public static IReadOnlyDictionary<FigureAddress, Figure> Of(SensorProfile profile, bool withDelivery)
    {
        var held = new Dictionary<FigureAddress, Figure>();
        foreach (IsoProfile iso in profile.IsoProfiles)
        {
            foreach ((string? channel, string name, Figure? figure) in OfIso(iso, withDelivery))
            {
                if (figure is not null)
                {
                    held.TryAdd(new FigureAddress(iso.Iso, channel, name), figure);
                }
            }
        }

        return held;
    }

    private static IEnumerable<(string? Channel, string Name, Figure? Figure)> OfIso(IsoProfile iso, bool withDelivery)
    {
        IEnumerable<(string?, string, Figure?)> whole =
        [
            (null, "aboveEv", iso.Latitude.AboveEv),
            (null, "firstClipEv", iso.Latitude.FirstClipEv),
            (null, "bandsEndEv", iso.Latitude.BandsEndEv),
            .. Below(null, iso.Latitude.BelowEv, withDelivery),
        ];
        return whole.Concat(iso.Channels.SelectMany(c => OfChannel(c, withDelivery))).Concat(iso.Previews.SelectMany(OfPreview));
    }

    private static IEnumerable<(string? Channel, string Name, Figure? Figure)> OfChannel(ChannelProfile c, bool withDelivery) =>
    [
        (c.Name, "blackLevelDn", c.BlackLevelDn),
        (c.Name, "gainElectronPerDn", c.GainElectronPerDn),
        (c.Name, "readNoiseElectron", c.ReadNoiseElectron),
        (c.Name, "readNoiseDn", c.ReadNoiseDn),
        (c.Name, "saturationDn", c.SaturationDn),
        (c.Name, "saturationElectron", c.SaturationElectron),
        (c.Name, "firstClipDn", c.FirstClipDn),
        (c.Name, "prnuPercent", c.PrnuPercent),
        (c.Name, "dsnuElectron", c.DsnuElectron),
        (c.Name, "rowNoiseElectron", c.RowNoiseElectron),
        (c.Name, "columnNoiseElectron", c.ColumnNoiseElectron),
        (c.Name, "dsnuRowElectron", c.DsnuRowElectron),
        (c.Name, "dsnuColumnElectron", c.DsnuColumnElectron),
        (c.Name, "prnuRowPercent", c.PrnuRowPercent),
        (c.Name, "prnuColumnPercent", c.PrnuColumnPercent),
        (c.Name, "linearityErrorPercent", c.LinearityErrorPercent),
        (c.Name, "linearityLargestPercent", c.LinearityLargestPercent),
        (c.Name, "middleGreyDn", c.MiddleGreyDn),
        (c.Name, "aboveEv", c.Latitude.AboveEv),
        (c.Name, "firstClipEv", c.Latitude.FirstClipEv),
        .. Below(c.Name, c.Latitude.BelowEv, withDelivery),
    ];

    private static IEnumerable<(string? Channel, string Name, Figure? Figure)> Below(string? channel, IReadOnlyList<ShadowEnd> ends, bool withDelivery) =>
        ends.SelectMany(end =>
        {
            string name = string.Create(CultureInfo.InvariantCulture, $"belowEv.snr{end.Snr}");
            return new (string?, string, Figure?)[]
            {
                (channel, $"{name}.perPixel", end.PerPixel),
                (channel, $"{name}.spanEv", end.SpanEv),
                (channel, $"{name}.atDelivery", withDelivery ? end.AtDelivery : null),
            };
        });

    private static IEnumerable<(string? Channel, string Name, Figure? Figure)> OfPreview(PreviewProfile preview)
    {
        string name = $"previews.{preview.Look}";
        return
        [
            (null, $"{name}.clipEv", preview.ClipEv),
            (null, $"{name}.shadowEndEv", preview.ShadowEndEv),
            (null, $"{name}.hiddenHeadroomEv", preview.HiddenHeadroomEv),
            (null, $"{name}.highlightWarningPercent", preview.HighlightWarningPercent),
        ];
    }
}
