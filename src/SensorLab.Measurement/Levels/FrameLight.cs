using SensorLab.Law;
using SensorLab.Measurement.Black;

namespace SensorLab.Measurement.Levels;

/// <summary>How much the light of a level's frames differs, some channels together.</summary>
/// <param name="ChiSquare">Squared deviations over what noise and the drift of black explain.</param>
/// <param name="DegreesOfFreedom">Frames less one.</param>
/// <param name="ExcessSquares">Squared relative deviations, less what noise explains.</param>
internal sealed record FrameLight(double ChiSquare, int DegreesOfFreedom, double ExcessSquares)
{
    /// <summary>No level yet.</summary>
    public static FrameLight None { get; } = new(0, 0, 0);

    /// <summary>Relative standard deviation of the frames' light.</summary>
    public double Relative => Math.Sqrt(Math.Max(0, ExcessSquares) / DegreesOfFreedom);

    /// <summary>How far beyond chance it is, in standard deviations.</summary>
    public double Deviations => ChiSquareTest.Deviations(ChiSquare, DegreesOfFreedom);

    /// <summary>Compares the frames of a level.</summary>
    /// <param name="channels">The level in the channels that count, of two frames or more.</param>
    /// <param name="signalDn">Their signals' sum in DN.</param>
    /// <param name="blackDn2">Variance of black from frame to frame in DN², which channels share.</param>
    public static FrameLight Of(IReadOnlyList<ObservedLevel> channels, double signalDn, double blackDn2)
    {
        int frames = channels.Min(c => c.Channel.FrameMeansDn.Count);
        double noise = (channels.Sum(BlackMoments.TemporalVariance) + (channels.Count * channels.Count * blackDn2)) / (signalDn * signalDn);
        double[] lights = [.. Enumerable.Range(0, frames).Select(f => channels.Sum(c => c.Channel.FrameMeansDn[f]) / signalDn)];
        double mean = lights.Average();
        double squares = lights.Sum(l => (l - mean) * (l - mean));
        return new FrameLight(squares / noise, frames - 1, squares - ((frames - 1) * noise));
    }

    /// <summary>Several levels together.</summary>
    /// <param name="other">Another level, or several.</param>
    public FrameLight With(FrameLight other) =>
        new(ChiSquare + other.ChiSquare, DegreesOfFreedom + other.DegreesOfFreedom, ExcessSquares + other.ExcessSquares);
}
