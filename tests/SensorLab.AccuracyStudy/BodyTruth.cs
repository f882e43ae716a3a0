using MathNet.Numerics;
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

    /// <summary>Spacing of codes: the factor of a digital push.</summary>
    public double StepDn => _setting.DigitalFactor;

    public double BlackDn => _body.BlackLevelDn;

    public double RowNoiseElectron => _body.RowNoiseElectron;

    public double SaturationDn => SaturationElectron / GainElectronPerDn;

    /// <summary>Electrons that the converter sees of a full well, or as many as it can count.</summary>
    public double SaturationElectron => Math.Min(Responded(_body.FullWellElectron), ConverterElectron);

    public bool ClipsAtConverter => Responded(_body.FullWellElectron) > ConverterElectron;

    public double PrnuFraction => Hypot(_body.PrnuPercent, _body.PrnuRowPercent, _body.PrnuColumnPercent) / 100;

    public double DsnuElectron => Hypot(_body.DsnuElectron, _body.DsnuRowElectron, _body.DsnuColumnElectron);

    /// <summary>Half a step above the last code that is not cut off, half a step below the largest where a step ends there.</summary>
    private double LastEdgeElectron
    {
        get
        {
            double steps = (_body.LargestCodeDn - Math.Floor(BlackDn)) / StepDn;
            double last = StepDn == 1 ? ConverterElectron / GainElectronPerDn : StepDn * (Math.Ceiling(steps) - (BlackDn - Math.Floor(BlackDn)));
            return GainElectronPerDn * (last - (StepDn / 2));
        }
    }

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

    /// <summary>Total SNR of a pixel at some stops from the metered light.</summary>
    public double SnrAtEv(SensorChannel channel, double ev) => SnrAt(GreyLight(channel) * Math.Pow(2, ev));

    /// <summary>Mean signal in DN above black at which 0.1 % of the pixels stand at the largest code or hold a full well.</summary>
    /// <remarks>The exact tail: Poisson's as an incomplete gamma function, averaged over the pixels' responses and offsets.</remarks>
    public double FirstClipDn()
    {
        const double share = 0.001;
        double limit = ClipsAtConverter ? LastEdgeElectron : _body.FullWellElectron;
        double noise = ClipsAtConverter ? Hypot(ReadNoiseElectron, DsnuElectron, 0) : 0;
        double Beyond(double light)
        {
            double sum = 0;
            double weights = 0;
            foreach ((double response, double responseWeight) in Nodes(PrnuFraction))
            {
                foreach ((double offset, double offsetWeight) in Nodes(noise))
                {
                    sum += responseWeight * offsetWeight * SpecialFunctions.GammaLowerRegularized(Unresponded(limit - offset), light * (1 + response));
                    weights += responseWeight * offsetWeight;
                }
            }

            return (sum / weights) - share;
        }

        return Responded(Bisection.FindRoot(Beyond, 0.8 * SaturatingLightElectron, SaturatingLightElectron, 1e-3, 60)) / GainElectronPerDn;
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
        double rounding = StepDn * StepDn * GainElectronPerDn * GainElectronPerDn / 12;
        double pattern = PrnuFraction * light;
        return light / Math.Sqrt((ReadNoiseElectron * ReadNoiseElectron) + (DsnuElectron * DsnuElectron) + rounding + light + (pattern * pattern));
    }

    private double Unresponded(double seen) => _body.CompressionPercent == 0
        ? seen
        : Bisection.FindRoot(light => Responded(light) - seen, 0, 2 * _body.FullWellElectron, 1e-6);

    private static IEnumerable<(double Place, double Weight)> Nodes(double deviation)
    {
        const int each = 12;
        const double reach = 5;
        int count = deviation > 0 ? each : 0;
        for (int i = -count; i <= count; i++)
        {
            double z = count == 0 ? 0 : reach * i / count;
            yield return (z * deviation, Math.Exp(-z * z / 2));
        }
    }

    private static double Hypot(double a, double b, double c) => Math.Sqrt((a * a) + (b * b) + (c * c));
}
