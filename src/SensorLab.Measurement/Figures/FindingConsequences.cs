using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Codes;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>What is not to be used is not printed as if it were: the one place where findings decide what becomes of figures.</summary>
/// <remarks>
/// After the checks of all ISOs, on figures as they were fitted. What was taken out of a figure by the fit itself needs no
/// consequence; what the fit knows the size of is part of its uncertainty already. The findings' messages say the same.
/// </remarks>
public static class FindingConsequences
{
    /// <summary>
    /// A smoothed noise misses in the variance what neighbours share: about twice the share that a pixel takes from them,
    /// and twice the correlation along one line. Gain, and all that is told in its unit, is off by as much.
    /// </summary>
    private const double LossOfShare = 2;

    /// <summary>Noise that is not the photons', over theirs at the bright end of the fit, from which gain is no measurement: its uncertainty would be half of it.</summary>
    private const double MostUnknown = 3;

    /// <summary>What a filter that is no weighted mean may do to black, over the noise that it leaves: a median, or stars cut off, moved it by up to a third of it.</summary>
    private const double FilteredBlack = 0.2;

    /// <summary>What gain may be off where noise departs from the fit of a bent response, of what is missing at saturation: a cubic law moved it by a sixth of that.</summary>
    private const double BendInGain = 1.0 / 6;

    /// <summary>How far a response may depart from its law, relative: beyond, a signal is no measure of light.</summary>
    internal const double LargestDeparture = 1;

    /// <summary>What metered frames may lie apart in EV and still be of one light, whose scatter the fit carries.</summary>
    private const double LargestScatterOfGrey = 0.5;

    private const FigureKinds Noise = FigureKinds.NoiseElectron | FigureKinds.ReadNoiseDn | FigureKinds.Shadows;

    private static readonly FindingConsequence[] Table =
    [
        // Noise that was smoothed is too small by what nobody knows: gain has no yardstick left, and shadows look too good. Sharpened noise is too large.
        new(FindingCode.RawFiltered, FigureKinds.Electrons, FigureFate.Absent),
        new(FindingCode.RawFiltered, FigureKinds.Shadows | FigureKinds.Snr, FigureFate.AtMost) { IsLarge = (f, _) => f.Size > 0 },
        new(FindingCode.RawFiltered, FigureKinds.ReadNoiseDn | FigureKinds.Prnu | FigureKinds.BandsEnd, FigureFate.AtLeast) { IsLarge = (f, _) => f.Size > 0 },
        new(FindingCode.RawFiltered, FigureKinds.Shadows | FigureKinds.Snr, FigureFate.AtLeast) { IsLarge = (f, _) => f.Size < 0 },
        new(FindingCode.RawFiltered, FigureKinds.ReadNoiseDn | FigureKinds.Prnu | FigureKinds.BandsEnd, FigureFate.AtMost) { IsLarge = (f, _) => f.Size < 0 },

        // A photosite that is moved away from neighbours of less light rises past its well.
        new(FindingCode.RawFiltered, FigureKinds.SaturationDn, FigureFate.AtMost) { IsLarge = (f, _) => f.Size < 0 },
        new(FindingCode.RawFiltered, FigureKinds.Above | FigureKinds.FirstClip, FigureFate.Widened) { IsLarge = (f, _) => f.Size < 0, Share = (f, _) => Math.Abs(f.Size ?? 0) / Math.Sqrt(12) },

        new(FindingCode.RawFiltered, FigureKinds.Black, FigureFate.Widened) { Share = (_, iso) => FilteredBlack * DarkNoiseDn(iso) },

        // Filtering that may be chance, or what a readout keeps of the pixel before, is of a size that is known.
        new(FindingCode.RawFiltered, FigureKinds.Electrons | FigureKinds.ReadNoiseDn | FigureKinds.Prnu | FigureKinds.Shadows | FigureKinds.Snr | FigureKinds.BandsEnd, FigureFate.Widened)
        {
            Holds = f => f.Severity == FindingSeverity.Note,
            Share = (f, _) => LossOfShare * Math.Abs(f.Size ?? 0),
        },

        // Structure of the target passes for fixed pattern, and where the meter looks it moves middle grey.
        new(FindingCode.TargetTextured, FigureKinds.Above | FigureKinds.FirstClip | FigureKinds.ShadowEnd, FigureFate.Widened),
        new(FindingCode.TargetTextured, FigureKinds.Prnu, FigureFate.AtMost),
        new(FindingCode.TargetTextured, FigureKinds.Shadows | FigureKinds.SnrTotal, FigureFate.AtLeast),

        // Metered frames far apart: one of them saw another light, or none, and which of them is middle grey nobody knows.
        new(FindingCode.MeteredDoubtful, FigureKinds.Above | FigureKinds.FirstClip | FigureKinds.ShadowEnd, FigureFate.Widened)
        {
            IsLarge = (f, _) => f.Size > LargestScatterOfGrey,
            Share = (f, _) => Math.Log(2) * (f.Size ?? 0) / Math.Sqrt(12),
        },

        // Steps that differ from code to code round black to anywhere within them, and their rounding is no noise of step²/12.
        new(FindingCode.RawCompanded, FigureKinds.Black, FigureFate.Widened) { Holds = _ => true, Share = (_, iso) => UnevenShiftDn(iso) / Math.Sqrt(3) },
        new(FindingCode.RawCompanded, Noise, FigureFate.Widened) { Holds = _ => true, Share = (_, iso) => RoundingShare(iso), IsOfDarkNoise = true },
        new(FindingCode.GainDigital, Noise, FigureFate.Widened) { Holds = f => f.Size % 1 > 0, Share = (_, iso) => RoundingShare(iso), IsOfDarkNoise = true },
        new(FindingCode.ChannelScaled, Noise, FigureFate.Widened) { Holds = _ => true, Share = (_, iso) => RoundingShare(iso), IsOfDarkNoise = true },

        // Light in all dark frames is in black, and its noise in theirs: too high by as much at the most.
        new(FindingCode.DarkLit, FigureKinds.Black, FigureFate.Widened) { Share = (f, iso) => LightInBlackDn(f, iso) / Math.Sqrt(3) },
        new(FindingCode.DarkLit, Noise, FigureFate.Widened) { Share = (f, iso) => NoiseOf(iso, LightInBlackDn(f, iso)) / Math.Sqrt(3), IsOfDarkNoise = true },
        new(FindingCode.DarkLit, FigureKinds.Above | FigureKinds.FirstClip | FigureKinds.ShadowEnd, FigureFate.Widened) { Share = (f, iso) => LightInBlackDn(f, iso) / GreyDn(iso) / Math.Sqrt(3) },

        // One channel does not tell light in a single dark frame from a black that moved: its noise may be in theirs.
        new(FindingCode.BlackDrift, Noise, FigureFate.Widened) { Holds = _ => true, Share = (_, iso) => NoiseOf(iso, DarkFrames.LoneLightDn(iso.Levels.Where(l => l.Role == RoleName.Dark))) / Math.Sqrt(3), IsOfDarkNoise = true },

        // Dark signal is in the metered frames, too, and passes for middle grey.
        new(FindingCode.DarkCurrent, FigureKinds.Above | FigureKinds.FirstClip | FigureKinds.ShadowEnd, FigureFate.Widened) { Holds = _ => true, Share = DarkShareOfGrey },

        // A knee of which no channels of different sensitivity tell: its size is what may be missing at the clip.
        new(FindingCode.ResponseNonlinear, FigureKinds.Above | FigureKinds.FirstClip | FigureKinds.Span, FigureFate.Widened)
        {
            Holds = f => f.SizeUnit == "ev",
            Share = (f, _) => Math.Log(2) * (f.Size ?? 0),
        },

        // Signals that leave their law by more than they are follow another thing than light.
        new(FindingCode.ResponseNonlinear, FigureKinds.Electrons | FigureKinds.Shadows | FigureKinds.Snr | FigureKinds.Above | FigureKinds.FirstClip, FigureFate.Absent) { Holds = f => f is { SizeUnit: "relative", Size: > LargestDeparture } },

        // Lamp and shutter move no gain; a response that nothing tells from them does, by what its slope changes where noise is fitted.
        new(FindingCode.ResponseNonlinear, FigureKinds.Electrons, FigureFate.Widened) { Holds = f => f.SizeUnit == "ev", Share = (_, iso) => ExposureDeparture.InFit(iso) / Math.Sqrt(3) },
        new(FindingCode.LightDrift, FigureKinds.Electrons, FigureFate.Widened) { IsLarge = (_, iso) => !ExposureDeparture.IsToldByChannels(iso), Share = (_, iso) => ExposureDeparture.InFit(iso) / Math.Sqrt(3) },

        // A bend of another law than the fit's has a part of itself in the slope of small signals.
        new(FindingCode.ModelRejected, FigureKinds.Electrons, FigureFate.Widened) { IsOfAllChannels = true, Share = (_, iso) => BendInGain * iso.Channels.Max(c => Math.Abs(c.CompressionPercent?.Value ?? 0)) / 100 },

        // Where most of the noise is not the photons', it says nothing of them.
        new(FindingCode.ModelRejected, FigureKinds.Electrons | FigureKinds.Shadows, FigureFate.Absent) { Holds = _ => true, IsLarge = (f, iso) => UnknownOverPhotons(f, iso) > MostUnknown },
    ];

    /// <summary>Leaves of every ISO's figures what the findings leave.</summary>
    /// <param name="isoProfiles">The ISOs as they were fitted.</param>
    /// <param name="findings">Everything that was found in the set.</param>
    /// <returns>The ISOs with the figures that may be used, as far as they may.</returns>
    public static IReadOnlyList<IsoProfile> Applied(IEnumerable<IsoProfile> isoProfiles, IReadOnlyList<Finding> findings) =>
        [.. isoProfiles.Select(iso => Left(iso, [.. findings.Where(f => f.Iso is null || f.Iso == iso.Iso).SelectMany(f => Table.Where(c => c.Code == f.Code && c.Holds(f) && c.IsLarge(f, iso)).Select(c => (c, f)))]))];

    private static IsoProfile Left(IsoProfile iso, (FindingConsequence Consequence, Finding Finding)[] due)
    {
        if (due.Length == 0)
        {
            return iso;
        }

        Figure? Of(string? channel, FigureKinds kind, Figure? figure, double? snr = null) => due
            .Where(d => d.Consequence.IsOfAllChannels || d.Finding.Channel is null || channel is null || d.Finding.Channel == channel)
            .Aggregate(figure, (left, d) => d.Consequence.Left(kind, left, d.Finding, iso, snr));
        ShadowEnd[] Ends(string? channel, IReadOnlyList<ShadowEnd> ends) =>
        [
            .. ends.Select(e => e with
            {
                PerPixel = Of(channel, FigureKinds.ShadowEnd, e.PerPixel, e.Snr),
                AtDelivery = Of(channel, FigureKinds.ShadowEnd, e.AtDelivery, e.Snr),
                SpanEv = Of(channel, FigureKinds.Span, e.SpanEv, e.Snr),
            }),
        ];
        return iso with
        {
            Channels =
            [
                .. iso.Channels.Select(c => c with
                {
                    BlackLevelDn = Of(c.Name, FigureKinds.Black, c.BlackLevelDn),
                    GainElectronPerDn = Of(c.Name, FigureKinds.Gain, c.GainElectronPerDn),
                    ReadNoiseElectron = Of(c.Name, FigureKinds.NoiseElectron, c.ReadNoiseElectron),
                    ReadNoiseDn = Of(c.Name, FigureKinds.ReadNoiseDn, c.ReadNoiseDn),
                    SaturationDn = Of(c.Name, FigureKinds.SaturationDn, c.SaturationDn),
                    SaturationElectron = Of(c.Name, FigureKinds.SaturationElectron, c.SaturationElectron),
                    PrnuPercent = Of(c.Name, FigureKinds.Prnu, c.PrnuPercent),
                    PrnuRowPercent = Of(c.Name, FigureKinds.Prnu, c.PrnuRowPercent),
                    PrnuColumnPercent = Of(c.Name, FigureKinds.Prnu, c.PrnuColumnPercent),
                    DsnuElectron = Of(c.Name, FigureKinds.NoiseElectron, c.DsnuElectron),
                    DsnuRowElectron = Of(c.Name, FigureKinds.NoiseElectron, c.DsnuRowElectron),
                    DsnuColumnElectron = Of(c.Name, FigureKinds.NoiseElectron, c.DsnuColumnElectron),
                    RowNoiseElectron = Of(c.Name, FigureKinds.NoiseElectron, c.RowNoiseElectron),
                    ColumnNoiseElectron = Of(c.Name, FigureKinds.NoiseElectron, c.ColumnNoiseElectron),
                    Latitude = c.Latitude with
                    {
                        AboveEv = Of(c.Name, FigureKinds.Above, c.Latitude.AboveEv),
                        FirstClipEv = Of(c.Name, FigureKinds.FirstClip, c.Latitude.FirstClipEv),
                        BelowEv = Ends(c.Name, c.Latitude.BelowEv),
                    },
                }),
            ],
            Latitude = iso.Latitude with
            {
                AboveEv = Of(null, FigureKinds.Above, iso.Latitude.AboveEv),
                FirstClipEv = Of(null, FigureKinds.FirstClip, iso.Latitude.FirstClipEv),
                BandsEndEv = Of(null, FigureKinds.BandsEnd, iso.Latitude.BandsEndEv),
                BelowEv = Ends(null, iso.Latitude.BelowEv),
            },
            SnrCurve = [.. iso.SnrCurve.Select(p => p with { SnrTotal = Of(null, FigureKinds.SnrTotal, p.SnrTotal), SnrTemporal = Of(null, FigureKinds.SnrTemporal, p.SnrTemporal) })],
        };
    }

    /// <summary>By how much rounding to steps that are wider than one DN here and there may move the mean of the dark codes: half of what the mean step is wider by.</summary>
    private static double UnevenShiftDn(IsoProfile iso) => Darks(iso).Max(c => Math.Max((c.CodeStepDn - 1) / 2, c.Histogram is { } codes ? CodeGaps.ShiftDn(codes) : 0));

    /// <summary>What rounding of uneven codes may have of the noise without light, as a share of its root.</summary>
    private static double RoundingShare(IsoProfile iso) => Darks(iso)
        .Where(c => c.TemporalParts is { PixelDn2: > 0 })
        .Select(c => RoundingNoise.VarianceDn2(c.CodeStepDn) / (2 * c.TemporalParts!.PixelDn2))
        .DefaultIfEmpty(0)
        .Max();

    /// <summary>w²·N of a wavering w over N electrons at the bright end of the fit.</summary>
    private static double UnknownOverPhotons(Finding finding, IsoProfile iso) =>
        finding.Size * finding.Size * FitRange.HighestShare * iso.Channels.Max(c => c.SaturationElectron?.Value ?? c.SaturationElectron?.AtLeast) ?? 0;

    /// <summary>Dark signal of the longest metered frames as a share of middle grey.</summary>
    private static double DarkShareOfGrey(Finding finding, IsoProfile iso)
    {
        double seconds = iso.Levels.Where(l => l.Role == RoleName.Metered).Select(l => l.ExposureSeconds).DefaultIfEmpty(0).Max();
        double? grey = iso.Channels.Where(c => ChannelName.IsPooled(c.Name)).Min(c => c.MiddleGreyDn?.Value * c.GainElectronPerDn?.Value);
        return finding.Size * seconds / grey is { } share && double.IsFinite(share) ? Math.Abs(share) : 0;
    }

    /// <summary>The signal of middle grey in DN, the channel's that has least; unlimited where it is not known.</summary>
    private static double GreyDn(IsoProfile iso) =>
        iso.Channels.Where(c => ChannelName.IsPooled(c.Name)).Select(c => c.MiddleGreyDn?.Value).OfType<double>().Where(g => g > 0).DefaultIfEmpty(double.PositiveInfinity).Min();

    /// <summary>What black holds of the light: none where short dark frames have none and black is theirs, all where all have it.</summary>
    private static double LightInBlackDn(Finding finding, IsoProfile iso)
    {
        LevelRecord[] darks = [.. iso.Levels.Where(l => l.Role == RoleName.Dark).OrderBy(l => l.ExposureSeconds)];
        int[] greens = [.. Enumerable.Range(0, iso.Channels.Count).Where(i => ChannelName.IsPooled(iso.Channels[i].Name))];
        double rise = greens.Average(i => darks[^1].Channels[i].MeanDn - darks[0].Channels[i].MeanDn);
        double light = finding.Size ?? 0;
        return rise > light / 2
            ? Math.Max(0, greens.Average(i => (iso.Channels[i].BlackLevelDn?.Value ?? darks[0].Channels[i].MeanDn) - darks[0].Channels[i].MeanDn))
            : light;
    }

    /// <summary>By what share of itself the noise of dark frames is too high for a light's own.</summary>
    private static double NoiseOf(IsoProfile iso, double lightDn) =>
        iso.Channels.Max(c => c is { GainElectronPerDn.Value: { } gain, ReadNoiseDn.Value: > 0 and { } noise } ? 1 - Math.Sqrt(1 - Math.Min(1, lightDn / (gain * noise * noise))) : 0);

    /// <summary>Temporal noise of the darks' pixels in DN.</summary>
    private static double DarkNoiseDn(IsoProfile iso) => Math.Sqrt(Darks(iso).Max(c => Math.Max(0, c.TemporalParts?.PixelDn2 ?? 0)));

    private static IEnumerable<LevelChannel> Darks(IsoProfile iso) => iso.Levels.Where(l => l.Role == RoleName.Dark).SelectMany(l => l.Channels);
}
