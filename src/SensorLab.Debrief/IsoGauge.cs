using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Debrief;

/// <summary>What a profile knows of an ISO, as a frame of everyday work is held against it.</summary>
internal sealed class IsoGauge
{
    /// <summary>The criteria of the shadows: texture, and tone.</summary>
    public const double TextureSnr = 10;

    /// <summary>The lower criterion.</summary>
    public const double ToneSnr = 4;

    private readonly MeasuredClip[] _clips;

    private IsoGauge(int iso, MeasuredClip[] clips, NoiseModel greens)
    {
        Iso = iso;
        _clips = clips;
        TextureDn = RecordedAt(greens, TextureSnr);
        ToneDn = RecordedAt(greens, ToneSnr);
        FloorDn = RecordedAt(greens, 1);
        GreyDn = greens.GreySignalDn;
        Response = greens.Response;
        NeutralEv = [.. clips.Select(c => c.AboveEv - clips.Min(other => other.AboveEv))];
        SnrAtClip = SnrOf(greens);
    }

    /// <summary>The ISO.</summary>
    public int Iso { get; }

    /// <summary>The clips, in the profile's order of channels.</summary>
    public IReadOnlyList<MeasuredClip> Clips => _clips;

    /// <summary>Recorded green signal at which total SNR of a photosite is 10, in DN; NaN where it never is.</summary>
    public double TextureDn { get; }

    /// <summary>The same at SNR 4.</summary>
    public double ToneDn { get; }

    /// <summary>The same at SNR 1: what lies below is no tone.</summary>
    public double FloorDn { get; }

    /// <summary>Middle grey's green signal in DN; NaN where it was not measured.</summary>
    public double GreyDn { get; }

    /// <summary>How green's recorded signal follows exposure.</summary>
    public ResponseCurve Response { get; }

    /// <summary>By how many stops each channel clips after the first, on what is neutral under the light of the set.</summary>
    public IReadOnlyList<double> NeutralEv { get; }

    /// <summary>SNR of a green photosite at saturation.</summary>
    public double SnrAtClip { get; }

    /// <summary>EV of a green signal from middle grey, no lower than where SNR is 1.</summary>
    /// <param name="signalDn">Recorded signal above black in DN.</param>
    public double EvOf(double signalDn)
    {
        double floor = double.IsNaN(FloorDn) ? 1 : FloorDn;
        double linear = Response.LinearOf(Math.Max(signalDn, floor));
        return Math.Log2(linear / Response.LinearOf(GreyDn));
    }

    /// <summary>The gauge of an ISO.</summary>
    /// <param name="iso">The ISO's profile.</param>
    /// <returns>Null where a channel's clip or the greens' noise was not measured.</returns>
    public static IsoGauge? Of(IsoProfile iso)
    {
        MeasuredClip?[] clips = [.. iso.Channels.Select(c => MeasuredClip.Of(iso, c))];
        return clips.Length == 0 || clips.Contains(null) || PublishedModel.Pooled(iso) is not { } greens || !(greens.GreySignalDn > 0)
            ? null
            : new IsoGauge(iso.Iso, [.. clips.OfType<MeasuredClip>()], greens);
    }

    /// <summary>The place of a frame's channel among the clips.</summary>
    /// <param name="channel">The channel.</param>
    /// <returns>Its index; −1 where the profile does not know it.</returns>
    public int IndexOf(SensorChannel channel) => Array.FindIndex(_clips, c => c.Channel == channel.ToString());

    private static double RecordedAt(NoiseModel greens, double snr) => greens.Response.RecordedOf(greens.SignalAtSnr(snr));

    private static double SnrOf(NoiseModel greens)
    {
        double saturation = greens.SaturationSignalDn;
        return saturation / Math.Sqrt(greens.TotalVarianceAt(saturation));
    }
}
