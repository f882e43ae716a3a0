using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Model;

/// <summary>The channels of an ISO, fitted together.</summary>
internal sealed class IsoModel
{
    private readonly JointModel _joint;

    private IsoModel(BlackModel black, JointModel joint, IReadOnlyList<ChannelModel> channels)
    {
        Black = black;
        _joint = joint;
        Channels = [.. channels.Select((c, i) => c with { Noise = Clipped(joint.Channel(i), c) })];
    }

    /// <summary>What the dark frames tell.</summary>
    public BlackModel Black { get; }

    /// <summary>The model of each channel.</summary>
    public IReadOnlyList<ChannelModel> Channels { get; }

    /// <summary>The greens pooled; Y where there is one channel.</summary>
    public NoiseModel Pooled
    {
        get
        {
            int[] greens = [.. Enumerable.Range(0, Channels.Count).Where(i => ChannelName.IsPooled(Channels[i].Name))];
            return Clipped(_joint.Pooled(greens), Channels[greens[0]]);
        }
    }

    /// <summary>Fits an ISO; where its response bends, with the bend among the parameters; where noise may grow faster than photons make it, with the doubt in the lines' uncertainty.</summary>
    /// <param name="levels">Level records of one ISO.</param>
    public static IsoModel Of(IReadOnlyList<LevelRecord> levels)
    {
        string[] names = [.. levels[0].Channels.Select(c => c.Name)];
        var black = BlackModel.Of(levels);
        ChannelObservations[] straight = [.. names.Select(n => new ChannelObservations(n, levels, black, default))];
        IsoModel model = Of(black, straight, IsoFit.Of(straight, null) ?? IsoFit.OfKnown(straight));
        if (ResponseEstimator.Of(model.Channels, known => IsoFit.Of(straight, known)) is not { } bend)
        {
            return model;
        }

        ChannelObservations[] bent = [.. names.Select(n => new ChannelObservations(n, levels, black, new ResponseCurve(bend.Found.Value)))];
        return IsoFit.Of(bent, bend.Knowledge) is { } fit
            ? Of(black, bent, fit).WithDoubt(NoiseParameter.BendPerDn, _ => bend.DoubtPerDn)
            : model;
    }

    /// <summary>The same ISO with middle grey.</summary>
    /// <param name="means">Mean of each channel in DN, black included.</param>
    /// <param name="shared">What the channels' means share, in parts of channels × channels in DN².</param>
    public IsoModel WithGrey(IReadOnlyList<Estimate?> means, IReadOnlyList<CovariancePart> shared) =>
        new(Black, _joint.With(NoiseParameter.GreyMeanDn, means, shared), Channels);

    /// <summary>The same ISO with what a response that departs from its law may have made of the gain: noise grows with the signal by the response's slope, and the line takes that for the law's.</summary>
    /// <param name="residual">What the response does beside the fitted law.</param>
    public IsoModel WithDoubtOfGain(ResponseResidual residual) =>
        new(Black, _joint.WithDoubt(NoiseParameter.GainDnPerElectron, residual.ReachInFit), Channels);

    /// <summary>The same ISO with what its noise without light may be off where its witnesses part, dark frames and lit ones or dark levels, in all channels by the same share.</summary>
    public IsoModel WithDoubtOfUnlitNoise() => this
        .WithDoubt(NoiseParameter.InterceptDn2, c => c.Unlit?.DoubtDn2 ?? 0)
        .WithDoubt(NoiseParameter.RowDn2, c => c.LineDoubts.RowDn2)
        .WithDoubt(NoiseParameter.ColumnDn2, c => c.LineDoubts.ColumnDn2);

    private IsoModel WithDoubt(NoiseParameter parameter, Func<ChannelModel, double> doubt)
    {
        double share = Channels.Select(c => doubt(c) / Math.Abs(c.Noise[parameter])).Where(double.IsFinite).DefaultIfEmpty(0).Max();
        return share > 0 ? new IsoModel(Black, _joint.WithDoubt(parameter, share), Channels) : this;
    }

    private static IsoModel Of(BlackModel black, ChannelObservations[] channels, IsoFit fit)
    {
        JointModel joint = fit.Joint();
        ChannelModel[] models = [.. channels.Select((c, i) => ToModel(c, fit, i, joint.Channel(i)))];
        JointModel doubted = ExcessNoise.Of(models, _ => black.Drift.FrameDn2) is { } excess ? fit.Joint(excess) : joint;
        return new IsoModel(black, doubted.With(NoiseParameter.SaturationMeanDn, [.. models.Select(m => m.Saturation?.MeanDn)], []), models);
    }

    private static ChannelModel ToModel(ChannelObservations channel, IsoFit fit, int index, NoiseModel noise)
    {
        PhotonTransfer? line = fit.LineOf(index);
        Saturation? saturation = channel.Lit.Length == 0 ? null : SaturationEstimator.Of(channel.Lit, noise[NoiseParameter.BlackDn], line);
        ChannelModel model = new()
        {
            Name = channel.Name,
            Levels = channel.Levels,
            Noise = noise,
            Saturation = saturation,
            PhotonTransfer = line,
            GainShiftOfExcess = line is null ? 0 : fit.ShiftOf(index)[JointModel.PlaceOf(index, NoiseParameter.GainDnPerElectron)],
            PatternScatter = fit.PatternScatterOf(index),
            CodeStepDn = channel.StepDn,
            BlackDrift = channel.Drift with { LitShiftDn = fit.LitShiftDn },
            LineDoubts = channel.LineDoubts,
            UnlitByCodesDn2 = channel.UnlitByCodesDn2,
            IsBelowStep = channel.IsBelowStep,
            FitLevels = line is null ? new HashSet<LevelRecord>() : channel.FitLevels.Select(l => l.Level).ToHashSet(),
        };
        return model with { Noise = Clipped(noise.With(NoiseParameter.SaturationMeanDn, saturation?.MeanDn), model), Unlit = UnlitNoise.Of(model) };
    }

    private static NoiseModel Clipped(NoiseModel noise, ChannelModel channel) =>
        channel.Saturation is { AtConverter: true } ? noise.WithConverterClip(channel.CodeStepDn) : noise;
}
