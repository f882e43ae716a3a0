using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Model;

namespace SensorLab.Measurement.Response;

/// <summary>Where signals of a channel tell its response: above the dim end, which black decides, and below the first clipped pixels.</summary>
/// <param name="BlackDn">The channel's black in DN.</param>
/// <param name="FullDn">Its saturation above black in DN; the highest level's signal where the bracket does not reach it.</param>
internal readonly record struct ResponseRange(double BlackDn, double FullDn)
{
    private const double LowestShare = 0.02;
    private const double HighestShare = 0.9;

    /// <summary>The lowest signal in DN.</summary>
    public double LowestDn => LowestShare * FullDn;

    /// <summary>The range of a channel.</summary>
    /// <param name="channel">The channel, fitted.</param>
    public static ResponseRange Of(ChannelModel channel)
    {
        double black = channel.Noise[NoiseParameter.BlackDn];
        return new ResponseRange(black, (channel.Saturation?.MeanDn?.Value ?? channel.Levels.Where(l => !l.IsDark).Max(l => l.Channel.MeanDn)) - black);
    }

    /// <summary>A level's signal above black in DN.</summary>
    /// <param name="level">The level.</param>
    public double SignalDn(ObservedLevel level) => level.Channel.MeanDn - BlackDn;

    /// <summary>Whether a level is lit, unclipped and in the range.</summary>
    /// <param name="level">The level.</param>
    public bool Holds(ObservedLevel level) =>
        !level.IsDark && level.Channel.ClippedFraction <= 0 && SignalDn(level) > LowestDn && SignalDn(level) < HighestShare * FullDn;
}
