using SensorLab.Frames;
using SensorLab.Planning.Plans;
using SensorLab.Sets;

namespace SensorLab.Assignment;

/// <summary>A frame in its place in time, with what its sample says of the light once its ISO's black is known.</summary>
internal sealed class SeenFrame
{
    /// <summary>A mean within this share of a photosite's noise from black shows no light: the shadow end of any plan lies at a whole one.</summary>
    private const double DarkNoiseShare = 0.25;

    /// <summary>Deviations of the mean's own noise, of which thousands of frames may have one.</summary>
    private const double DarkDeviations = 6;

    /// <summary>Black is no steadier than this from frame to frame, in DN.</summary>
    private const double LeastDarkDn = 0.15;

    /// <summary>A channel's ratio to green is worth looking at from so many limits of darkness on.</summary>
    private const double ColourLimits = 6;

    /// <summary>Photosites at white from which a frame counts as clipped, as a share: hot ones are fewer.</summary>
    public const double FewestWhite = 0.002;

    /// <summary>A dark signal stays below this share of the range.</summary>
    public const double MostDarkSignal = 0.05;

    private readonly double _blackDn;
    private readonly double _plateauDn;

    /// <summary>Takes the frame and its ISO's black and plateau.</summary>
    public SeenFrame(SampledFrame frame, int order, BlackReference black, double plateauDn)
    {
        Frame = frame;
        Order = order;
        Black = black;
        _blackDn = black.GreenDn;
        _plateauDn = plateauDn;
        Thirds = ShutterTime.Nearest(Seconds)?.Thirds;
    }

    public SampledFrame Frame { get; }

    /// <summary>Its place in time among all frames.</summary>
    public int Order { get; }

    public BlackReference Black { get; }

    public string File => Frame.File;

    public int Iso => Frame.Raw.Metadata.Iso!.Value;

    public double Seconds => Frame.Raw.Metadata.ExposureSeconds!.Value;

    /// <summary>The dial's third stop nearest to its time; null beyond the dial.</summary>
    public int? Thirds { get; }

    /// <summary>How far its time lies off the dial's, in EV: files hold what is engraved or what was exposed, and those differ by up to a tenth.</summary>
    public double OffDialEv => Thirds is { } thirds
        ? Math.Min(Math.Abs(Math.Log2(Seconds / new ShutterTime(thirds).EngravedSeconds)), Math.Abs(Math.Log2(Seconds / new ShutterTime(thirds).ExactSeconds)))
        : double.PositiveInfinity;

    /// <summary>Green's signal in DN.</summary>
    public double SignalDn => Frame.Sample.GreenDn - _blackDn;

    /// <summary>The signal below which no light is seen, in DN.</summary>
    public double LimitDn => DarkLimit(Frame.Sample, Black.NoiseDn);

    /// <summary>The signal that more light does not move, in DN.</summary>
    public double RangeDn => _plateauDn;

    /// <summary>Whether no light is seen.</summary>
    public bool IsDark => SignalDn <= LimitDn;

    /// <summary>Whether more light would not be seen.</summary>
    public bool IsClipped => Light.IsClipped;

    /// <summary>log2 of the light: signal per second; null where the signal is too small or too large to tell.</summary>
    public double? LightEv => Light.IsTold ? Light.LightEv : null;

    /// <summary>What it tells of its light.</summary>
    public LightReading Light => field ??= new LightReading(Order, Seconds, SignalDn, LimitDn / 2, _plateauDn, Frame.Sample.WhiteShare > FewestWhite);

    /// <summary>log2 of red's and blue's signal to green's; null where it cannot be told, or without filters.</summary>
    public (double Red, double Blue)? Colour
    {
        get
        {
            if (IsClipped || SignalDn < ColourLimits * LimitDn
                || Frame.Sample.Of(SensorChannel.R) - Black.Of(SensorChannel.R) is not { } red
                || Frame.Sample.Of(SensorChannel.B) - Black.Of(SensorChannel.B) is not { } blue
                || red <= 0 || blue <= 0)
            {
                return null;
            }

            return (Math.Log2(red / SignalDn), Math.Log2(blue / SignalDn));
        }
    }

    /// <summary>The signal below which a sample shows no light, in DN.</summary>
    /// <param name="sample">The sample.</param>
    /// <param name="noiseDn">Noise of one photosite without light, in DN: what a picture shows must not pass for noise.</param>
    public static double DarkLimit(FrameSample sample, double noiseDn) =>
        Math.Max(LeastDarkDn, Math.Max(DarkDeviations * noiseDn / Math.Sqrt(Math.Max(1, sample.Pixels)), DarkNoiseShare * noiseDn));

    /// <summary>The signal in DN that a light would give.</summary>
    /// <param name="lightEv">log2 of the light.</param>
    public double SignalAt(double lightEv) => Math.Pow(2, lightEv) * Seconds;
}
