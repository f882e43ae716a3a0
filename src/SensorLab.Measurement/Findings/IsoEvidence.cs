using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Findings.Codes;
using SensorLab.Measurement.Findings.Response;
using SensorLab.Measurement.Model;
using SensorLab.Measurement.Response;
using SensorLab.Pixels;
using SensorLab.Pixels.Field;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Measurement.Findings;

/// <summary>What the checks of one ISO look at: the statistics of its levels, their records and what was fitted to them.</summary>
public sealed class IsoEvidence
{
    private readonly double[] _tops;

    private IsoEvidence(IsoCharacterisation fitted, IsoProfile profile, IsoModel model, IReadOnlyList<EvidenceLevel> levels, IsoOptions options, bool declaresCurve)
    {
        Fitted = fitted;
        Profile = profile;
        Levels = levels;
        Options = options;
        DeclaresCurve = declaresCurve;
        Channels = model.Channels;
        Black = model.Black;
        _tops = [.. Channels.Select((c, i) => TopSignal(c, i))];
        CodeSteps = new Lazy<CodeSteps>(() => new CodeSteps(this));
        Response = new Lazy<ResponseFit?>(() => ResponseFit.Of(this));
        Glow = new Lazy<GlowMap?>(() => GlowMap.Of(Darks.Select(d => d.Statistics)));
    }

    /// <summary>What the levels came to, and the model behind it.</summary>
    internal IsoCharacterisation Fitted { get; }

    /// <summary>The ISO's profile.</summary>
    public IsoProfile Profile { get; }

    /// <summary>The ISO setting.</summary>
    public int Iso => Profile.Iso;

    internal IReadOnlyList<EvidenceLevel> Levels { get; }

    internal IReadOnlyList<ChannelModel> Channels { get; }

    /// <summary>What the dark frames tell of black, drift and dark signal.</summary>
    internal BlackModel Black { get; }

    internal IsoOptions Options { get; }

    /// <summary>Whether the files say that their codes went through a maker's curve.</summary>
    internal bool DeclaresCurve { get; }

    internal GreyMethod Grey => Options.Grey;

    internal Lazy<ResponseFit?> Response { get; }

    /// <summary>What glows in the dark frames; null where nothing does.</summary>
    internal Lazy<GlowMap?> Glow { get; }

    /// <summary>What the response does beside its law; null where the levels do not tell.</summary>
    internal ResponseResidual? Residual => Fitted.Residual;

    internal Lazy<CodeSteps> CodeSteps { get; }

    internal IEnumerable<EvidenceLevel> Darks => Levels.Where(l => l.IsDark);

    internal IEnumerable<EvidenceLevel> Lit => Levels.Where(l => l.IsLit);

    /// <summary>Gathers the evidence of an ISO.</summary>
    /// <param name="statistics">Statistics of its levels, in any order.</param>
    /// <param name="fitted">What its levels came to, in the same order.</param>
    /// <param name="options">What the profile's figures depended on beside the levels.</param>
    /// <returns>The evidence; null where the ISO is refused.</returns>
    /// <exception cref="ArgumentException">The profile has another number of levels.</exception>
    public static IsoEvidence? Of(IReadOnlyList<LevelStatistics> statistics, IsoCharacterisation fitted, IsoOptions options)
    {
        if (fitted is not { Profile: { } profile, Model: { } model })
        {
            return null;
        }

        if (statistics.Count != profile.Levels.Count)
        {
            throw new ArgumentException("A profile's levels are those of its statistics.", nameof(fitted));
        }

        bool curve = statistics.Any(s => s.Level.Frames.Any(f => f.Raw.IsCompanded));
        return new IsoEvidence(fitted, profile, model, [.. statistics.Select((s, i) => new EvidenceLevel(s, profile.Levels[i]))], options, curve);
    }

    internal double BlackDn(int channel) => Channels[channel].Noise[NoiseParameter.BlackDn];

    /// <summary>The code in DN at which a channel's dark values are cut off; null where they are not.</summary>
    internal int? FloorDn(int channel) => Darks.Select(d => d.FloorDn(channel)).Min();

    /// <summary>
    /// What a channel shows without light, in DN: the mean of the shortest dark frames. Of dark values that are cut off, or
    /// whose noise is below half a step, the mean is no black, and the fit of their codes is.
    /// </summary>
    internal double UnlitDn(int channel) => FloorDn(channel) is null && !Channels[channel].IsBelowStep
        ? Darks.MinBy(d => d.Record.ExposureSeconds)!.Record.Channels[channel].MeanDn
        : BlackDn(channel);

    /// <summary>Whether nothing of a level's noise is cut off at the channel's floor: its mean says what its light is.</summary>
    internal bool IsWhole(EvidenceLevel level, int channel) => FloorDn(channel) is not { } floor
        || (level.VarianceOfPixel(channel) is { } variance && level.Record.Channels[channel].MeanDn - floor > Significance.Whole * Math.Sqrt(variance));

    /// <summary>System gain in DN/e⁻; NaN where it was not measured.</summary>
    internal double GainDnPerElectron(int channel) => Channels[channel].Noise[NoiseParameter.GainDnPerElectron];

    internal double SignalDn(EvidenceLevel level, int channel) => level.Record.Channels[channel].MeanDn - BlackDn(channel);

    /// <summary>Variance of a level's mean by temporal noise, in DN²: of a level of one frame the line's.</summary>
    internal double VarianceOfMeanDn2(EvidenceLevel level, int channel) => (level.VarianceOfFrameMean(channel)
        ?? (Channels[channel].PhotonTransfer is { } line
            ? line.VarianceAt(SignalDn(level, channel)) / (level.Record.Channels[channel].Pixels ?? level.Record.PixelsPerChannel)
            : level.Record.Frames * Math.Pow(level.Record.Channels[channel].MeanUncertaintyDn, 2))) / level.Record.Frames;

    /// <summary>A level's signal as a share of the channel's saturation, or of its brightest level where it never saturates.</summary>
    internal double ShareOf(EvidenceLevel level, int channel) => SignalDn(level, channel) / _tops[channel];

    /// <summary>Whether a channel's level lies between two shares of saturation and clips nowhere.</summary>
    internal bool IsBetween(EvidenceLevel level, int channel, double lowest, double highest) =>
        level.Record.Channels[channel].ClippedFraction <= 0 && ShareOf(level, channel) >= lowest && ShareOf(level, channel) <= highest;

    /// <summary>Indices of the green channels, or of Y.</summary>
    internal IReadOnlyList<int> Greens => [.. Enumerable.Range(0, Channels.Count).Where(i => ChannelName.IsPooled(Channels[i].Name))];

    /// <summary>
    /// Sensitivity of each channel relative to green, from the levels where all are well lit; null where there is no such level.
    /// </summary>
    internal double[]? Sensitivities()
    {
        EvidenceLevel[] usable = [.. Lit.Where(l => Enumerable.Range(0, Channels.Count).All(c => IsBetween(l, c, 0.05, SignalShare.WellBelowClip)))];
        if (usable.Length == 0)
        {
            return null;
        }

        double green = Greens.Average(c => usable.Sum(l => SignalDn(l, c)));
        return [.. Enumerable.Range(0, Channels.Count).Select(c => usable.Sum(l => SignalDn(l, c)) / green)];
    }

    private double TopSignal(ChannelModel channel, int index) =>
        channel.Saturation?.MeanDn is { } plateau
            ? plateau.Value - BlackDn(index)
            : Lit.Select(l => SignalDn(l, index)).DefaultIfEmpty(double.NaN).Max();
}
