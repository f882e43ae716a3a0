using SensorLab.Law;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;

namespace SensorLab.Reports.Swatches;

/// <summary>The tones of a swatch: what noise this body has in each at one ISO, one pixel of the picture a pixel of the patch.</summary>
/// <remarks>
/// The total is the published SNR curve's, of one pixel of the pooled greens (Y in monochrome). Rows and columns are the
/// published figures; what is left is the pixels'. At a delivery size the pixels' part falls by √(photosites of the colour over
/// delivered pixels), as the shadow ends there do; a line falls by the root of the lines that one delivered pixel covers.
/// </remarks>
internal sealed record SwatchModel
{
    // Middle grey is 18 % of the screen's white: two stops and a half are left above it.
    private const double BrightestEv = 2;
    private const double HalfStopsBelowEv = -2;
    private const double DarkestEv = -14;
    private const double LeastSnr = 1;
    private const double Percent = 100;

    // Neighbours alone are told of, not what lies beyond: a filter that two pixels share holds no more.
    private const double MostCorrelation = 0.5;

    /// <summary>The sensor profile.</summary>
    public required SensorProfile Profile { get; init; }

    /// <summary>The ISO.</summary>
    public required int Iso { get; init; }

    /// <summary>The size at which it is looked at; null for the sensor's own pixels.</summary>
    public Delivery? Delivery { get; init; }

    /// <summary>The tones, the brightest first.</summary>
    public required IReadOnlyList<SwatchTone> Tones { get; init; }

    /// <summary>Correlation of the temporal noise of neighbours in a row.</summary>
    public double Horizontal { get; init; }

    /// <summary>Correlation of the temporal noise of neighbours in a column.</summary>
    public double Vertical { get; init; }

    /// <summary>Whether the brightest tones are left out because they clip.</summary>
    public bool IsCutAtClip => Tones[0].Ev < BrightestEv;

    /// <summary>The tones of a profile.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">The ISO.</param>
    /// <param name="delivery">The size at which pictures are looked at; null for the profile's own, or none.</param>
    /// <exception cref="IsoUnmeasuredException">The ISO was not measured.</exception>
    /// <exception cref="SwatchRefusedException">Its noise was not.</exception>
    public static SwatchModel From(SensorProfile profile, int iso, Delivery? delivery)
    {
        Delivery? size = delivery ?? profile.Delivery;
        var tones = new List<SwatchTone>();
        IsoProfile? measured = null;
        var scale = new Scale(1, 1, 1, 1);
        (double Horizontal, double Vertical) neighbours = (0, 0);
        for (double ev = BrightestEv; ev >= DarkestEv; ev -= ev > HalfStopsBelowEv ? 1 : 0.5)
        {
            Figure? snr = PlacementAnswer.Of(profile, new PlacementQuestion { Iso = iso, ToneEv = ev }).Snr;
            if (measured is null)
            {
                measured = profile.IsoProfiles.First(i => i.Iso == iso);
                neighbours = Neighbours(measured);
                scale = Scale.Of(profile.Sensor, measured, size, neighbours);
            }

            if (snr?.Value is not { } total)
            {
                continue;
            }

            if (total * scale.CriterionGain < LeastSnr)
            {
                break;
            }

            if (ToneOf(measured, ev, total, scale) is { } tone)
            {
                tones.Add(tone);
            }
        }

        return tones.Count == 0 ? throw SwatchRefusedException.Of(iso) : new SwatchModel
        {
            Profile = profile,
            Iso = iso,
            Delivery = size,
            Tones = tones,
            Horizontal = Delivered(neighbours.Horizontal, scale.ChannelPixels),
            Vertical = Delivered(neighbours.Vertical, scale.ChannelPixels),
        };
    }

    private static SwatchTone? ToneOf(IsoProfile iso, double ev, double snr, Scale scale)
    {
        if (PublishedModel.Pooled(iso) is not { } model || !(model.GreyLinearDn > 0))
        {
            return null;
        }

        double recorded = model.Response.RecordedOf(model.GreyLinearDn * Math.Pow(2, ev));
        double responsive = model.Response.ResponsiveSignalOf(recorded);
        (double rows, double fixedRows) = Lines(iso, responsive, c => c.RowNoiseElectron, c => c.DsnuRowElectron, c => c.PrnuRowPercent);
        (double columns, double fixedColumns) = Lines(iso, responsive, c => c.ColumnNoiseElectron, c => c.DsnuColumnElectron, c => c.PrnuColumnPercent);
        double total = 1 / (snr * snr);
        double pixels = Math.Max(0, total - rows - fixedRows - columns - fixedColumns);

        // Where the fixed pattern is only bounded, all is taken for temporal.
        double temporal = model.TemporalVarianceAt(recorded) / (responsive * responsive);
        double shared = double.IsNaN(model.TotalVarianceAt(recorded)) ? pixels : Math.Clamp(temporal - rows - columns, 0, pixels);
        return new SwatchTone(
            ev,
            snr * scale.CriterionGain,
            Math.Sqrt((pixels - shared) * scale.FreeVariance),
            Math.Sqrt(shared * scale.SharedVariance),
            Math.Sqrt((rows + fixedRows) * scale.LineVariance),
            Math.Sqrt((columns + fixedColumns) * scale.LineVariance));
    }

    // Squares of the pooled channels' mean, over the squared signal. A bound tells no value.
    private static (double Temporal, double Fixed) Lines(
        IsoProfile iso, double responsiveDn, Func<ChannelProfile, Figure?> noise, Func<ChannelProfile, Figure?> dsnu, Func<ChannelProfile, Figure?> prnu)
    {
        ChannelProfile[] greens = [.. iso.Channels.Where(c => ChannelName.IsPooled(c.Name))];
        return (greens.Average(c => Square(Dn(noise(c), c))), greens.Average(c => Square(Dn(dsnu(c), c)) + Square(prnu(c)?.Value / Percent)));

        double? Dn(Figure? electron, ChannelProfile channel) => electron?.Value / channel.GainElectronPerDn?.Value / responsiveDn;

        static double Square(double? number) => number * number ?? 0;
    }

    // By the levels that served the fit, each with the weight that its uncertainty gives it.
    private static (double Horizontal, double Vertical) Neighbours(IsoProfile iso)
    {
        NeighbourCorrelation[] levels =
        [
            .. iso.Levels.SelectMany(l => l.Channels).Where(c => c.UsedInFit && ChannelName.IsPooled(c.Name))
                .Select(c => c.NeighbourCorrelation).OfType<NeighbourCorrelation>().Where(c => c.StandardUncertainty > 0),
        ];
        double weights = levels.Sum(Weight);
        return weights > 0
            ? (Bounded(levels.Sum(c => Weight(c) * c.Horizontal) / weights), Bounded(levels.Sum(c => Weight(c) * c.Vertical) / weights))
            : (0, 0);

        static double Weight(NeighbourCorrelation c) => 1 / (c.StandardUncertainty * c.StandardUncertainty);

        static double Bounded(double correlation) => Math.Clamp(correlation, -MostCorrelation, MostCorrelation);
    }

    // Of means of n pixels side by side only those that touch share: ρ of n variances each.
    private static double Delivered(double correlation, double channelPixels) => correlation / (channelPixels * Averaged(correlation, channelPixels));

    // By how much less a mean of n correlated pixels averages out.
    private static double Averaged(double correlation, double channelPixels) => 1 + (2 * correlation * (channelPixels - 1) / channelPixels);

    // What a patch's pixel is to a photosite: factors of variance, of the criterion's SNR, and photosites of a colour along its side.
    private sealed record Scale(double FreeVariance, double SharedVariance, double LineVariance, double CriterionGain)
    {
        public double ChannelPixels { get; private init; } = 1;

        public static Scale Of(SensorGeometry sensor, IsoProfile iso, Delivery? delivery, (double Horizontal, double Vertical) neighbours)
        {
            if (delivery is null)
            {
                return new Scale(1, 1, 1, 1);
            }

            double sites = (double)sensor.WidthPixels * sensor.HeightPixels / ((double)delivery.WidthPixels * delivery.HeightPixels);
            double share = iso.Channels.Count > 1 ? 0.5 : 1;
            double channelPixels = Math.Max(1, Math.Sqrt(sites) * (iso.Channels.Count > 1 ? 0.5 : 1));
            double free = 1 / (share * sites);
            double shared = free * Averaged(neighbours.Horizontal, channelPixels) * Averaged(neighbours.Vertical, channelPixels);
            return new Scale(free, shared, 1 / Math.Max(1, Math.Sqrt(sites)), Math.Sqrt(share * sites)) { ChannelPixels = channelPixels };
        }
    }
}
