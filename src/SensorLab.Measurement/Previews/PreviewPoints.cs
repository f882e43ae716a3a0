using SensorLab.Profiles;

namespace SensorLab.Measurement.Previews;

/// <summary>Gives every preview of an ISO the EV of its own frame.</summary>
/// <remarks>
/// The light is the green signal of the raw frame that the preview belongs to, so that shutter error and flicker drop out.
/// Where green nears saturation its signal stands still: there the exposure time counts on from the brightest level of the
/// same light step and aperture whose signal can be trusted.
/// </remarks>
internal sealed class PreviewPoints
{
    /// <summary>Distance from saturation up to which the signal tells the light, in EV: noise has begun to clip above it.</summary>
    private const double TrustedBelowEv = 0.15;

    private readonly IReadOnlyList<LevelRecord> _levels;
    private readonly Dictionary<string, double> _blackDn;
    private readonly double _trustedEv;

    /// <summary>Prepares an ISO.</summary>
    /// <param name="levels">Its finished level records.</param>
    /// <param name="channels">Its finished channels.</param>
    public PreviewPoints(IReadOnlyList<LevelRecord> levels, IReadOnlyList<ChannelProfile> channels)
    {
        _levels = levels;
        ChannelProfile[] greens = [.. channels.Where(c => ChannelName.IsPooled(c.Name))];
        _blackDn = greens.ToDictionary(c => c.Name, c => c.BlackLevelDn?.Value ?? 0);
        _trustedEv = greens.Min(c => c.Latitude.AboveEv?.Value ?? double.PositiveInfinity) - TrustedBelowEv;
    }

    /// <summary>The previews by look, looks in ordinal order, levels in the profile's order.</summary>
    public IEnumerable<(string Look, IReadOnlyList<PreviewPoint> Points)> ByLook() => _levels
        .SelectMany((level, i) => (level.PreviewCodes ?? []).Select(codes => (codes.Look, Point: PointOf(level, i, codes))))
        .Where(p => p.Point is not null)
        .GroupBy(p => p.Look, StringComparer.Ordinal)
        .OrderBy(g => g.Key, StringComparer.Ordinal)
        .Select(g => (g.Key, (IReadOnlyList<PreviewPoint>)[.. g.Select(p => p.Point!.Value)]));

    private PreviewPoint? PointOf(LevelRecord level, int index, PreviewCodes codes) =>
        EvOf(level, codes.Frame) is { } ev ? new PreviewPoint(index, ev, codes.R, codes.G, codes.B) : null;

    private double? EvOf(LevelRecord level, int frame)
    {
        if (level.Ev is { } own && IsTrusted(level))
        {
            return own + FrameOverLevelEv(level, frame);
        }

        LevelRecord? reference = _levels
            .Where(l => l.Role == level.Role && l.LightStep == level.LightStep && l.ApertureFNumber == level.ApertureFNumber && IsTrusted(l))
            .MaxBy(l => l.ExposureSeconds);
        return reference is { Ev: { } from } && level.Ev is not null && level.ExposureSeconds > reference.ExposureSeconds
            ? from + Math.Log2(level.ExposureSeconds / reference.ExposureSeconds)
            : null;
    }

    private bool IsTrusted(LevelRecord level) => level.Ev is { } ev && ev < _trustedEv && !level.Channels.Any(c => ChannelName.IsPooled(c.Name) && c.ClippedFraction > 0);

    // Frames of a level differ in light where it flickers; greens together.
    private double FrameOverLevelEv(LevelRecord level, int frame)
    {
        double own = 0;
        double mean = 0;
        foreach (LevelChannel channel in level.Channels.Where(c => ChannelName.IsPooled(c.Name) && frame < c.FrameMeansDn.Count))
        {
            own += channel.FrameMeansDn[frame] - _blackDn[channel.Name];
            mean += channel.MeanDn - _blackDn[channel.Name];
        }

        return own > 0 && mean > 0 ? Math.Log2(own / mean) : 0;
    }
}

/// <summary>One frame's preview: how much light there was, and what it shows.</summary>
/// <param name="Level">Which level of the ISO the frame belongs to.</param>
/// <param name="Ev">EV of green from middle grey.</param>
/// <param name="R">Median code of red.</param>
/// <param name="G">Median code of green.</param>
/// <param name="B">Median code of blue.</param>
internal readonly record struct PreviewPoint(int Level, double Ev, double R, double G, double B);
