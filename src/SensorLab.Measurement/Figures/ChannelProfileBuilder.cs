using SensorLab.Law;
using SensorLab.Measurement.Model;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>Turns a channel's model into its published figures.</summary>
internal static class ChannelProfileBuilder
{
    public static ChannelProfile Build(ChannelModel channel, ResponseResidual? residual, IsoOptions options)
    {
        var latitude = new LatitudeFigures(channel.Noise, residual);
        NoiseModel model = channel.Noise;
        double quantisation = RoundingNoise.VarianceDn2(channel.CodeStepDn);
        LinearityError? linearity = LinearityEstimator.Of([.. channel.Levels.Where(l => !l.IsDark)], channel.Saturation, model[NoiseParameter.BlackDn], channel.BlackDrift);
        return new ChannelProfile
        {
            Name = channel.Name,
            DeclaredBlackDn = options.DeclaredBlackDn.TryGetValue(channel.Name, out double black) ? black : null,
            DeclaredWhiteDn = options.DeclaredWhiteDn,
            BlackLevelDn = model.Evaluate(m => m[NoiseParameter.BlackDn]).ToFigure(),
            GainElectronPerDn = model.Evaluate(m => 1 / m[NoiseParameter.GainDnPerElectron]).ToFigure(),
            ReadNoiseElectron = Root(model, m => (m.TemporalVarianceAt(0) - quantisation) / Square(m[NoiseParameter.GainDnPerElectron])),
            ReadNoiseDn = Root(model, m => m.TemporalVarianceAt(0) - quantisation),
            SaturationDn = SaturationFigure(channel, m => m.SaturationSignalDn, 1),
            SaturationElectron = SaturationFigure(channel, m => m.SaturationLinearDn / m[NoiseParameter.GainDnPerElectron], 1 / model[NoiseParameter.GainDnPerElectron]),
            FirstClipDn = model.Evaluate(m => m.FirstClipSignalDn).ToFigure(),
            PrnuPercent = Root(model, m => m.PrnuSquare, 100),
            DsnuElectron = Root(model, m => m.DsnuSquareDn2 / Square(m[NoiseParameter.GainDnPerElectron])),
            RowNoiseElectron = Electrons(model, NoiseParameter.RowDn2),
            ColumnNoiseElectron = Electrons(model, NoiseParameter.ColumnDn2),
            DsnuRowElectron = Electrons(model, NoiseParameter.RowDsnuSquareDn2),
            DsnuColumnElectron = Electrons(model, NoiseParameter.ColumnDsnuSquareDn2),
            PrnuRowPercent = Root(model, m => m[NoiseParameter.RowPrnuSquare], 100),
            PrnuColumnPercent = Root(model, m => m[NoiseParameter.ColumnPrnuSquare], 100),
            LinearityErrorPercent = linearity?.MeanPercent,
            LinearityLargestPercent = linearity?.LargestPercent,
            CompressionPercent = model[NoiseParameter.BendPerDn] == 0 ? null : model.Evaluate(m => 100 * m[NoiseParameter.BendPerDn] * m.SaturationSignalDn).ToFigure(),
            MiddleGreyDn = model.Evaluate(m => m.GreySignalDn).ToFigure(),
            Latitude = new ChannelLatitude
            {
                AboveEv = latitude.Above(channel.Saturation),
                FirstClipEv = latitude.FirstClip(),
                BelowEv = latitude.Below(options.SnrCriteria, null),
            },
            DngNoiseProfile = NoiseProfile(channel, options),
        };
    }

    private static Figure? Root(NoiseModel model, Func<NoiseModel, double> square, double factor = 1) => model.Evaluate(square)?.ToRootFigure(factor);

    private static Figure? Electrons(NoiseModel model, NoiseParameter squareDn2) => Root(model, m => m[squareDn2] / Square(m[NoiseParameter.GainDnPerElectron]));

    private static Figure? SaturationFigure(ChannelModel channel, Func<NoiseModel, double> quantity, double unitsPerDn)
    {
        if (channel.Noise.Evaluate(quantity) is { } measured)
        {
            return measured.ToFigure();
        }

        bool reached = channel.Saturation?.MeanDn is not null;
        double bound = ((channel.Saturation?.HighestMeanDn ?? double.NaN) - channel.Noise[NoiseParameter.BlackDn]) * unitsPerDn;
        return !reached && double.IsFinite(bound) ? Figure.LowerBound(bound) : null;
    }

    /// <summary>DNG 1.7, tag NoiseProfile, normalised with the levels that the file declares.</summary>
    private static DngNoiseProfile? NoiseProfile(ChannelModel channel, IsoOptions options)
    {
        double gain = channel.Noise[NoiseParameter.GainDnPerElectron];
        if (!double.IsFinite(gain) || options.DeclaredWhiteDn is not { } white || !options.DeclaredBlackDn.TryGetValue(channel.Name, out double black) || white <= black)
        {
            return null;
        }

        double range = white - black;
        double offset = channel.Noise.TemporalVarianceAt(black - channel.Noise[NoiseParameter.BlackDn]);
        return new DngNoiseProfile(gain / range, offset / (range * range));
    }

    private static double Square(double number) => number * number;
}
