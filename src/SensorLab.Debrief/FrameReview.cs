using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Debrief;

/// <summary>Holds frames of an assignment against a profile: pixels in, <see cref="FrameDebrief"/> out.</summary>
/// <remarks>Pure: the same frame and profile give the same result. Safe for several threads.</remarks>
public sealed class FrameReview
{
    private const double Thousandth = 0.001;
    private const double Hundredth = 0.01;
    private const double Percent = 100;

    /// <summary>Stops within which cells are of one tone with the brightest texture.</summary>
    private const double SameToneEv = 0.02;

    private readonly Dictionary<int, IsoGauge?> _gauges;

    /// <summary>Prepares a profile.</summary>
    /// <param name="profile">The sensor profile.</param>
    public FrameReview(SensorProfile profile) => _gauges = profile.IsoProfiles.ToDictionary(iso => iso.Iso, IsoGauge.Of);

    /// <summary>Whether the profile measured an ISO's clip, black, grey and noise: without them nothing can be said of its frames.</summary>
    /// <param name="iso">The ISO setting.</param>
    public bool Knows(int iso) => _gauges.GetValueOrDefault(iso) is not null;

    /// <summary>Reviews a frame.</summary>
    /// <param name="file">Its path inside the folder.</param>
    /// <param name="reader">The frame, at its first row; read to its end once.</param>
    /// <param name="preview">The camera's own picture; null where there is none.</param>
    /// <param name="quarterTurns">Quarter turns clockwise that bring the frame upright, 0 to 3.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="ArgumentException">The profile does not know the frame's ISO (<see cref="Knows"/>), or its channels.</exception>
    /// <exception cref="MalformedFileException">The file's data are damaged.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public FrameDebrief Of(string file, IMosaicReader reader, PreviewTones? preview = null, int quarterTurns = 0, CancellationToken cancellation = default)
    {
        RawFrame frame = reader.Frame;
        if (frame.Metadata.Iso is not { } iso || _gauges.GetValueOrDefault(iso) is not { } gauge)
        {
            throw new ArgumentException("The profile does not know this frame's ISO.", nameof(reader));
        }

        if (frame.Layout.ColourFilterArray.Channels.Any(c => gauge.IndexOf(c) < 0))
        {
            throw new ArgumentException("The profile does not know this frame's channels.", nameof(reader));
        }

        FrameCells cells = FrameCells.Read(reader, gauge, cancellation);
        HeadroomMap map = HeadroomMap.Of(cells, gauge);
        return Reviewed(file, frame, gauge, cells, map, preview?.Against(cells, map), quarterTurns);
    }

    private static FrameDebrief Reviewed(
        string file, RawFrame frame, IsoGauge gauge, FrameCells cells, HeadroomMap map, (bool BlewRawHeld, bool HidClipped)? preview, int quarterTurns)
    {
        float[] greens = GreensOf(cells, gauge);
        float[] tones = [.. greens];
        double surface = Brightest(map.SurfaceEv);
        bool isBound = surface <= (float)map.BoundEv;
        double? exposeToClip = isBound || surface > MostEv ? null : surface;
        (double? textureEv, string? channel) = BrightTexture(gauge, cells, map, greens);
        return new FrameDebrief
        {
            File = file,
            Iso = gauge.Iso,
            ProfileIso = gauge.Iso,
            ExposureSeconds = frame.Metadata.ExposureSeconds,
            ApertureFNumber = frame.Metadata.ApertureFNumber,
            CaptureTime = frame.Metadata.CaptureTime,
            ClippedPercent = gauge.Clips.Index().ToDictionary(c => c.Item.Channel, c => Percent * cells.Clipped[c.Index] / Math.Max(1, cells.Photosites[c.Index])),
            ClippedSurfacePercent = Percent * map.SurfaceEv.Count(ev => ev <= 0) / cells.Count,
            HeadroomLeftEv = Math.Clamp(Brightest(map.Ev), 0, MostEv),
            ClipStandardUncertaintyEv = gauge.Clips.Max(c => c.StandardUncertaintyEv),
            BrightTextureEv = textureEv,
            BrightTextureChannel = channel,
            ExposeToClipEv = exposeToClip,
            ExposeToClipAtMostEv = isBound ? map.BoundEv : null,
            IsReckonedBeyondClip = exposeToClip <= 0,
            ShadowPercent = SharesBelow(greens, gauge, 0),
            ShadowPercentAtClip = exposeToClip is { } change ? SharesBelow(greens, gauge, change) : null,
            BrightestEv = gauge.EvOf(Ranked.Of(tones, tones.Length - Math.Max(1, (int)(Thousandth * tones.Length)))),
            MedianEv = gauge.EvOf(Ranked.Of(tones, tones.Length / 2)),
            DarkestEv = gauge.EvOf(Ranked.Of(tones, (int)(Hundredth * tones.Length))),
            PreviewBlewRawHeld = preview?.BlewRawHeld,
            PreviewHidClipped = preview?.HidClipped,
            Picture = FramePicture.Of(cells, map, gauge, greens, quarterTurns),
        };
    }

    /// <summary>A frame without any light has no headroom that means anything: more than any sensor holds.</summary>
    private const double MostEv = 20;

    private static float[] GreensOf(FrameCells cells, IsoGauge gauge)
    {
        int[] pooled = [.. gauge.Clips.Index().Where(c => ChannelName.IsPooled(c.Item.Channel)).Select(c => c.Index)];
        float[] greens = new float[cells.Count];
        foreach (int channel in pooled)
        {
            for (int cell = 0; cell < greens.Length; cell++)
            {
                greens[cell] += cells.SignalsDn[channel][cell] / pooled.Length;
            }
        }

        return greens;
    }

    /// <summary>The value that the brightest thousandth of the cells has or goes below.</summary>
    private static double Brightest(float[] ev)
    {
        return Ranked.Of([.. ev], Math.Max(0, (int)Math.Ceiling(Thousandth * ev.Length) - 1));
    }

    private static (double? Ev, string? Channel) BrightTexture(IsoGauge gauge, FrameCells cells, HeadroomMap map, float[] greens)
    {
        int[] textured = [.. Enumerable.Range(0, cells.Count).Where(c => map.SurfaceEv[c] > 0 && !map.IsClipped[c])];
        int rank = Math.Max(0, (int)Math.Ceiling(Thousandth * cells.Count) - 1);
        if (textured.Length <= rank)
        {
            return (null, null);
        }

        double edge = Ranked.Of(Array.ConvertAll(textured, c => map.SurfaceEv[c]), rank);
        int[] alike = [.. textured.Where(c => Math.Abs(map.SurfaceEv[c] - edge) <= SameToneEv && Math.Abs(map.Ev[c] - edge) <= SameToneEv)];
        if (alike.Length == 0 || edge > MostEv)
        {
            return (null, null);
        }

        float[] tones = Array.ConvertAll(alike, c => greens[c]);
        int first = Enumerable.Range(0, gauge.Clips.Count).MinBy(channel => alike.Average(c => gauge.Clips[channel].HeadroomEv(cells.SignalsDn[channel][c])));
        return (gauge.EvOf(Ranked.Of(tones, tones.Length / 2)), gauge.Clips[first].Channel);
    }

    // With more light a signal passes the criterion from lower down.
    private static ShadowShare SharesBelow(float[] greens, IsoGauge gauge, double changeEv)
    {
        return new ShadowShare(Share(gauge.TextureDn), Share(gauge.ToneDn));

        double Share(double criterionDn)
        {
            double edge = gauge.Response.RecordedOf(gauge.Response.LinearOf(criterionDn) / Math.Pow(2, changeEv));
            int below = 0;
            foreach (float green in greens)
            {
                below += green < (float)edge ? 1 : 0;
            }

            return double.IsNaN(edge) ? Percent : Percent * below / greens.Length;
        }
    }
}
