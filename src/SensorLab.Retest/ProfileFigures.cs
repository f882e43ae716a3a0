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
        var held = new HeldFigures(withDelivery);
        foreach (IsoProfile iso in profile.IsoProfiles)
        {
            held.AddIso(iso);
        }

        return held.Figures;
    }

    private sealed class HeldFigures(bool withDelivery)
    {
        // A few criteria for thousands of figures.
        private readonly Dictionary<double, (string PerPixel, string SpanEv, string AtDelivery)> _criteria = [];
        private int _iso;

        public Dictionary<FigureAddress, Figure> Figures { get; } = [];

        public void AddIso(IsoProfile iso)
        {
            _iso = iso.Iso;
            Add(null, "aboveEv", iso.Latitude.AboveEv);
            Add(null, "firstClipEv", iso.Latitude.FirstClipEv);
            Add(null, "bandsEndEv", iso.Latitude.BandsEndEv);
            AddBelow(null, iso.Latitude.BelowEv);
            foreach (ChannelProfile channel in iso.Channels)
            {
                AddChannel(channel);
            }

            foreach (PreviewProfile preview in iso.Previews)
            {
                string name = $"previews.{preview.Look}";
                Add(null, $"{name}.clipEv", preview.ClipEv);
                Add(null, $"{name}.shadowEndEv", preview.ShadowEndEv);
                Add(null, $"{name}.hiddenHeadroomEv", preview.HiddenHeadroomEv);
                Add(null, $"{name}.hiddenShadowEv", preview.HiddenShadowEv);
                Add(null, $"{name}.highlightWarningPercent", preview.HighlightWarningPercent);
            }
        }

        private void AddChannel(ChannelProfile c)
        {
            Add(c.Name, "blackLevelDn", c.BlackLevelDn);
            Add(c.Name, "gainElectronPerDn", c.GainElectronPerDn);
            Add(c.Name, "readNoiseElectron", c.ReadNoiseElectron);
            Add(c.Name, "readNoiseDn", c.ReadNoiseDn);
            Add(c.Name, "saturationDn", c.SaturationDn);
            Add(c.Name, "saturationElectron", c.SaturationElectron);
            Add(c.Name, "firstClipDn", c.FirstClipDn);
            Add(c.Name, "prnuPercent", c.PrnuPercent);
            Add(c.Name, "dsnuElectron", c.DsnuElectron);
            Add(c.Name, "rowNoiseElectron", c.RowNoiseElectron);
            Add(c.Name, "columnNoiseElectron", c.ColumnNoiseElectron);
            Add(c.Name, "dsnuRowElectron", c.DsnuRowElectron);
            Add(c.Name, "dsnuColumnElectron", c.DsnuColumnElectron);
            Add(c.Name, "prnuRowPercent", c.PrnuRowPercent);
            Add(c.Name, "prnuColumnPercent", c.PrnuColumnPercent);
            Add(c.Name, "linearityErrorPercent", c.LinearityErrorPercent);
            Add(c.Name, "linearityLargestPercent", c.LinearityLargestPercent);
            Add(c.Name, "compressionPercent", c.CompressionPercent);
            Add(c.Name, "middleGreyDn", c.MiddleGreyDn);
            Add(c.Name, "aboveEv", c.Latitude.AboveEv);
            Add(c.Name, "firstClipEv", c.Latitude.FirstClipEv);
            AddBelow(c.Name, c.Latitude.BelowEv);
        }

        private void AddBelow(string? channel, IReadOnlyList<ShadowEnd> ends)
        {
            foreach (ShadowEnd end in ends)
            {
                if (!_criteria.TryGetValue(end.Snr, out (string PerPixel, string SpanEv, string AtDelivery) names))
                {
                    string name = string.Create(CultureInfo.InvariantCulture, $"belowEv.snr{end.Snr}");
                    _criteria[end.Snr] = names = ($"{name}.perPixel", $"{name}.spanEv", $"{name}.atDelivery");
                }

                Add(channel, names.PerPixel, end.PerPixel);
                Add(channel, names.SpanEv, end.SpanEv);
                Add(channel, names.AtDelivery, withDelivery ? end.AtDelivery : null);
            }
        }

        private void Add(string? channel, string name, Figure? figure)
        {
            if (figure is not null)
            {
                Figures.TryAdd(new FigureAddress(_iso, channel, name), figure);
            }
        }
    }
}
