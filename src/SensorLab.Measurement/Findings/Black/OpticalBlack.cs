using SensorLab.Law;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>The optical black pixels of an ISO against its dark frames, and those of its lit frames against those of its dark ones.</summary>
/// <param name="DarkExcessDn">How far the dark frames lie above the optical black beside them, channels on the mean, in DN.</param>
/// <param name="GrowthDn">How much more the longest dark frames do so than the shortest, in DN; null where they have one exposure.</param>
/// <param name="LitShiftDn">The largest difference of a dim lit level's optical black from the dark frames', in DN; null without such levels.</param>
/// <param name="DarkNoiseDn">Temporal noise of a pixel in the dark frames, in DN; null where there are no pairs.</param>
/// <param name="HasColours">Whether the channels' sensitivities differ enough to tell light by its colour.</param>
/// <param name="IsColoured">Whether what long dark frames have more follows these sensitivities.</param>
/// <remarks>
/// Masked photosites have the black of the others but no light, and most have their dark signal. Many lie off the
/// others by a constant, so a constant says nothing of light unless it is above a pixel's noise; what grows with exposure
/// is light, unless the channels' colours say that it is dark signal which the mask does not share.
/// </remarks>
internal sealed record OpticalBlack(
    Estimate DarkExcessDn, Estimate? GrowthDn, Estimate? LitShiftDn, double? DarkNoiseDn, bool HasColours, bool IsColoured)
{
    /// <summary>A fifth of a code: four times what black may be off.</summary>
    private const double SmallestDn = 0.2;

    /// <summary>Levels darker than this share of saturation: light that strays into the mask is far below a fifth of a code.</summary>
    private const double HighestShare = 0.04;

    /// <summary>Exposure ratio from which growth can be told.</summary>
    private const double SmallestRatio = 2;

    /// <summary>Whether light came into the dark frames, by what they have more than the mask.</summary>
    public bool IsLight => GrowthDn is { } growth
        ? growth.Value > 0 && IsOff(growth) && (IsColoured || !HasColours)
        : IsOff(DarkExcessDn) && DarkExcessDn.Value > DarkNoiseDn;

    /// <summary>By how much the dark frames are brighter than darkness where light came in, in DN.</summary>
    public double LightDn => GrowthDn?.Value ?? DarkExcessDn.Value;

    /// <summary>Whether the dark frames' black is not the mask's, for another reason than light.</summary>
    public bool IsDarkOff => !IsLight && (IsOff(DarkExcessDn) || (GrowthDn is { } growth && IsOff(growth)));

    /// <summary>Whether black moved between dark and lit frames.</summary>
    public bool IsLitShifted => LitShiftDn is { } shift && IsOff(shift);

    /// <summary>The larger of both differences that <see cref="IsDarkOff"/> looks at, in DN.</summary>
    public double DarkOffDn => GrowthDn is { } growth && Math.Abs(growth.Value) > Math.Abs(DarkExcessDn.Value) ? growth.Value : DarkExcessDn.Value;

    /// <summary>Compares; null where the dark frames have no masked photosites.</summary>
    public static OpticalBlack? Of(IsoEvidence evidence)
    {
        (EvidenceLevel Level, Estimate Excess)[] darks =
        [
            .. evidence.Darks.Where(HasMask).OrderBy(d => d.Record.ExposureSeconds).Select(d => (d, Mean(d, c => Excess(d, c)))),
        ];
        if (darks.Length == 0)
        {
            return null;
        }

        (EvidenceLevel shortest, Estimate least) = darks[0];
        (EvidenceLevel longest, Estimate most) = darks[^1];
        bool hasGrowth = longest.Record.ExposureSeconds >= SmallestRatio * shortest.Record.ExposureSeconds;
        Estimate[] shifts =
        [
            .. evidence.Lit.Where(l => HasMask(l) && evidence.Channels.Select((_, c) => c).All(c => evidence.IsBetween(l, c, -1, HighestShare)))
                .Select(l => Difference(MaskOf(l), MaskAt(l.Record.ExposureSeconds, shortest, hasGrowth ? longest : shortest))),
        ];

        // What the shortest dark frames have more is the constant; light shows in the growth.
        double[] variances = [.. shortest.Record.Channels.Select(c => c.TemporalVarianceDn2).OfType<double>()];
        DarkRise? rise = DarkRise.Of(evidence);
        return new OpticalBlack(
            least,
            hasGrowth ? Difference(most, least) : null,
            shifts.Length == 0 ? null : shifts.MaxBy(s => Math.Abs(s.Value)),
            variances.Length == 0 ? null : Math.Sqrt(variances.Average()),
            rise?.LightDn is not null,
            rise?.IsColoured ?? false);
    }

    private static bool IsOff(Estimate difference) =>
        Math.Abs(difference.Value) > SmallestDn && Math.Abs(difference.Value) > Significance.Deviations * difference.StandardUncertainty;

    private static bool HasMask(EvidenceLevel level) =>
        level.Statistics.OpticalBlackDn.Count > 0 && level.Statistics.OpticalBlackDn.All(mean => mean is not null);

    private static Estimate Excess(EvidenceLevel dark, int channel) => Difference(
        new Estimate(dark.Record.Channels[channel].MeanDn, dark.Record.Channels[channel].MeanUncertaintyDn),
        dark.Statistics.OpticalBlackDn[channel]!.Value);

    private static Estimate MaskOf(EvidenceLevel level) => Mean(level, c => level.Statistics.OpticalBlackDn[c]!.Value);

    /// <summary>The dark frames' optical black at an exposure time: it has dark signal, which grows evenly.</summary>
    private static Estimate MaskAt(double seconds, EvidenceLevel shortest, EvidenceLevel longest)
    {
        Estimate first = MaskOf(shortest);
        double span = longest.Record.ExposureSeconds - shortest.Record.ExposureSeconds;
        double share = span > 0 ? Math.Clamp((seconds - shortest.Record.ExposureSeconds) / span, 0, 1) : 0;
        return first with { Value = first.Value + (share * (MaskOf(longest).Value - first.Value)) };
    }

    /// <summary>Channels share rows and columns, hence their noise: their variances are averaged as if it were one.</summary>
    private static Estimate Mean(EvidenceLevel level, Func<int, Estimate> of)
    {
        Estimate[] all = [.. level.Record.Channels.Select((_, c) => of(c))];
        return new Estimate(all.Average(e => e.Value), Math.Sqrt(all.Average(e => e.Variance)));
    }

    private static Estimate Difference(Estimate of, Estimate from) =>
        new(of.Value - from.Value, double.Hypot(of.StandardUncertainty, from.StandardUncertainty));
}
