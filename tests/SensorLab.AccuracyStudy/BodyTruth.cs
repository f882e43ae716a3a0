using MathNet.Numerics.RootFinding;
using SensorLab.Frames;
using SensorLab.Simulation.Bodies;

namespace SensorLab.AccuracyStudy;

/// <summary>What is true of a study body, from its properties; roots by bisection, so that no formula is shared with what is judged.</summary>
internal sealed class BodyTruth
{
    private readonly VirtualBody _body;
    private readonly VirtualIso _setting;

    public BodyTruth(StudyBody body)
    {
        _body = body.Body;
        _setting = body.Setting;
    }

    /// <summary>Light in e⁻ at which a photosite of sensitivity 1 stands at its end.</summary>
    public double SaturatingLightElectron => Bisection.FindRoot(light => Responded(light) - SaturationElectron, 0, 2 * _body.FullWellElectron, 1e-6);

    public double GainElectronPerDn => _setting.GainElectronPerDn;

    public double ReadNoiseElectron => _setting.ReadNoiseElectron;

    public double BlackDn => _body.BlackLevelDn;

    public double RowNoiseElectron => _body.RowNoiseElectron;

    public double SaturationDn => SaturationElectron / GainElectronPerDn;

    /// <summary>Electrons that the converter sees of a full well, or as many as it can count.</summary>
    public double SaturationElectron => Math.Min(Responded(_body.FullWellElectron), ConverterElectron);

    public bool ClipsAtConverter => Responded(_body.FullWellElectron) > ConverterElectron;

    public double PrnuFraction => Hypot(_body.PrnuPercent, _body.PrnuRowPercent, _body.PrnuColumnPercent) / 100;

    public double DsnuElectron => Hypot(_body.DsnuElectron, _body.DsnuRowElectron, _body.DsnuColumnElectron);

    private double ConverterElectron => (_body.LargestCodeDn - BlackDn) * GainElectronPerDn;

    /// <summary>Signal of the metered frames in DN above black.</summary>
    public double GreyDn(SensorChannel channel) => Responded(GreyLight(channel)) / GainElectronPerDn;

    /// <summary>Ratio of exposures in EV: from the metered light to the light at the channel's end.</summary>
    public double AboveEv(SensorChannel channel) => Math.Log2(SaturatingLightElectron / GreyLight(channel));

    /// <summary>Stops from the metered light down to where total SNR falls to a criterion.</summary>
    public double BelowEv(SensorChannel channel, double snr)
    {
        double light = Bisection.FindRoot(l => SnrAt(l) - snr, 1e-9, SaturatingLightElectron, 1e-9, 200);
        return Math.Log2(GreyLight(channel) / light);
    }

    /// <summary>Mean signal in DN above black at which 0.1 % of the pixels stand at the largest code or hold a full well.</summary>
    /// <remarks>Normal quantile with the Cornish–Fisher term of a sum's skewness; electrons are whole, codes are rounded.</remarks>
    public double FirstClipDn()
    {
        const double quantile = 3.090232306167813;
        double limit = ClipsAtConverter ? ConverterElectron - (GainElectronPerDn / 2) : _body.FullWellElectron - 0.5;
        double Beyond(double light)
        {
            double pattern = light * light * PrnuFraction * PrnuFraction;
            double variance = light + pattern + (ClipsAtConverter ? (ReadNoiseElectron * ReadNoiseElectron) + (DsnuElectron * DsnuElectron) : 0);
            double skewness = (light + (3 * pattern)) / Math.Pow(variance, 1.5);
            return light + (Math.Sqrt(variance) * (quantile + (skewness * ((quantile * quantile) - 1) / 6))) - limit;
        }

        return Responded(Bisection.FindRoot(Beyond, 1, limit, 1e-6)) / GainElectronPerDn;
    }

    /// <summary>Mean and largest deviation in percent from the straight line of least relative squares, without noise.</summary>
    public (double Mean, double Largest) LinearityPercent(SensorChannel channel)
    {
        double[] lights = [.. StudySet.BracketShares.Select(s => s * SaturatingLightElectron * _body.ChannelSensitivity.Of(channel))
            .Where(l => l < SaturatingLightElectron && Responded(l) > 0.05 * SaturationElectron && Responded(l) < 0.95 * SaturationElectron)];
        double[] inverse = [.. lights.Select(l => 1 / Responded(l))];
        double[] ratio = [.. lights.Select((l, i) => l * inverse[i])];

        // Least squares of 1 = a/S + b·L/S: what the relative deviations' normal equations ask.
        double aa = inverse.Sum(v => v * v);
        double ab = inverse.Zip(ratio, (v, r) => v * r).Sum();
        double bb = ratio.Sum(r => r * r);
        double determinant = (aa * bb) - (ab * ab);
        double a = ((inverse.Sum() * bb) - (ratio.Sum() * ab)) / determinant;
        double b = ((ratio.Sum() * aa) - (inverse.Sum() * ab)) / determinant;
        double[] deviations = [.. lights.Select(l => Math.Abs((Responded(l) / (a + (b * l))) - 1))];
        return _body.CompressionPercent == 0 ? (0, 0) : (100 * deviations.Average(), 100 * deviations.Max());
    }

    /// <summary>The electrons that the converter sees of those held.</summary>
    public double Responded(double electron) => electron - (0.01 * _body.CompressionPercent / _body.FullWellElectron * electron * electron);

    public double GreyLight(SensorChannel channel) => StudySet.MeteredShare * SaturatingLightElectron * _body.ChannelSensitivity.Of(channel);

    private double SnrAt(double light)
    {
        double rounding = GainElectronPerDn * GainElectronPerDn / 12;
        double pattern = PrnuFraction * light;
        return light / Math.Sqrt((ReadNoiseElectron * ReadNoiseElectron) + (DsnuElectron * DsnuElectron) + rounding + light + (pattern * pattern));
    }

    private static double Hypot(double a, double b, double c) => Math.Sqrt((a * a) + (b * b) + (c * c));
}
