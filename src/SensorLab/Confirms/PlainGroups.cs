using System.Globalization;
using SensorLab.Assignment;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Confirms;

/// <summary>Tells dark frames and frames of an even field among a job's everyday pictures, by their photosites.</summary>
/// <remarks>
/// Only groups of one setting whose frames all look alike are told: what moves from frame to frame, as clouds and hand-held walls
/// do, would pass for noise. A frame with the cap on is as even as its noise and has no colour, wherever its black lies.
/// </remarks>
internal static class PlainGroups
{
    /// <summary>Fewer frames alike may be so by chance.</summary>
    private const int Fewest = 4;

    /// <summary>Without light all channels stand equally far from the profile's black, within this many DN or this share.</summary>
    private const double ColourlessDn = 0.3;
    private const double ColourlessShare = 0.1;

    /// <summary>Darkness is not so many times as noisy as the profile's.</summary>
    private const double NoiseFactor = 2;

    /// <summary>An even field under a steady lamp keeps its cells within this share of each other from frame to frame: less than a tenth of shot noise comes of it.</summary>
    private const double StillShare = 0.002;

    /// <summary>Deviations of a cell's own noise that it may move by beside.</summary>
    private const double StillDeviations = 2;

    /// <summary>Signals below so many times the noise of darkness tell no gain.</summary>
    private const double FewestSignal = 10;

    /// <summary>Gives roles to frames without one that lie in a group alike.</summary>
    /// <param name="profile">The profile: its black and noise are what darkness is held against.</param>
    /// <param name="frames">The job's frames.</param>
    public static JobFrame[] Tell(SensorProfile profile, JobFrame[] frames)
    {
        Dictionary<string, FrameRole> told = [];
        foreach (IGrouping<(int Iso, double SecondsStep, double? ApertureFNumber)?, JobFrame> group in frames.Where(f => f is { Role: null, Sample: not null, Setting: not null }).GroupBy(f => f.Setting))
        {
            IsoProfile iso = profile.IsoProfiles.First(p => p.Iso == group.Key!.Value.Iso);
            JobFrame[] dark = [.. group.Where(f => IsDark(iso, f.Sample!))];
            JobFrame[] lit = [.. group.Except(dark).Where(f => IsEvenlyLit(iso, f.Sample!))];
            foreach (JobFrame frame in dark.Length >= Fewest ? dark : [])
            {
                told[frame.File] = FrameRole.Dark;
            }

            foreach (JobFrame frame in lit.Length >= Fewest && AreStill(iso, [.. lit.Select(f => f.Sample!)]) ? lit : [])
            {
                told[frame.File] = FrameRole.Metered;
            }
        }

        return [.. frames.Select(f => told.TryGetValue(f.File, out FrameRole role) ? f with { Role = role, IsToldByPixels = true } : f)];
    }

    /// <summary>What was told, in words.</summary>
    public static IReadOnlyList<string> Words(IEnumerable<JobFrame> frames) =>
    [
        .. frames
            .Where(f => f.IsToldByPixels)
            .GroupBy(f => (f.Frame.Metadata.Iso!.Value, f.Role))
            .OrderBy(g => g.Key.Value)
            .ThenBy(g => g.Key.Role)
            .Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Count()} frames at ISO {g.Key.Value} ({g.First().File} and on) are {(g.Key.Role == FrameRole.Dark ? "dark" : "of an even field")} by the look of their photosites. Where they are not, move them out of the folder.")),
    ];

    private static bool IsDark(IsoProfile iso, FrameSample sample)
    {
        double[] signals = [.. Signals(iso, sample)];
        double mean = signals.DefaultIfEmpty(double.NaN).Average();
        double spread = signals.Length > 1 ? signals.Max() - signals.Min() : Math.Abs(mean);
        return sample.IsEven
            && spread <= Math.Max(ColourlessDn, ColourlessShare * Math.Abs(mean))
            && Math.Abs(mean) <= SeenFrame.MostDarkSignal * RangeDn(iso)
            && sample.PixelNoiseDn <= NoiseFactor * NoiseDn(iso);
    }

    private static bool IsEvenlyLit(IsoProfile iso, FrameSample sample) =>
        Signals(iso, sample).DefaultIfEmpty(double.NaN).Min() > FewestSignal * NoiseDn(iso)
        && sample.WhiteShare < SeenFrame.FewestWhite
        && PlainField.TextureAlone(sample, BlackDn(iso)) < PlainField.Textured;

    // Cells relative to their frame's mean, about each cell's mean over the frames.
    private static bool AreStill(IsoProfile iso, FrameSample[] samples)
    {
        double black = BlackDn(iso);
        double[][] cells = [.. samples.Select(s => s.CellsDn.Select(c => c - black).ToArray()).Select(c => c.Select(v => v / c.Average()).ToArray())];
        double moved = Enumerable.Range(0, cells.Min(c => c.Length)).Average(i =>
        {
            double mean = cells.Average(c => c[i]);
            return cells.Sum(c => (c[i] - mean) * (c[i] - mean)) / (cells.Length - 1);
        });
        double noise = samples.Average(s => s.PixelNoiseDn / Math.Sqrt(Math.Max(1, s.Pixels / s.CellsDn.Count)) / (s.GreenDn - black));
        return moved <= (StillShare * StillShare) + (StillDeviations * StillDeviations * noise * noise);
    }

    private static IEnumerable<double> Signals(IsoProfile iso, FrameSample sample) => sample.Channels.Zip(sample.MeanDn)
        .Select(c => c.Second - Of(iso, c.First)?.BlackLevelDn?.Value)
        .OfType<double>();

    private static ChannelProfile? Of(IsoProfile iso, SensorChannel channel) => iso.Channels.FirstOrDefault(c => c.Name == channel.ToString());

    private static double BlackDn(IsoProfile iso) => Of(iso, SensorChannel.G1)?.BlackLevelDn?.Value ?? iso.Channels.Select(c => c.BlackLevelDn?.Value).FirstOrDefault(b => b is not null) ?? double.NaN;

    private static double NoiseDn(IsoProfile iso) => iso.Channels.Select(c => c.ReadNoiseDn?.Value).OfType<double>().DefaultIfEmpty(double.NaN).Max();

    private static double RangeDn(IsoProfile iso) => iso.Channels.Select(c => c.SaturationDn?.Value).OfType<double>().DefaultIfEmpty(double.NaN).Max();
}
