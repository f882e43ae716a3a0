using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Pixels.Codes;

namespace SensorLab.Pixels.Defects;

/// <summary>Which lines of a set's frames do not answer as their neighbours do: they stand out at most of its dark levels, or at most of the well lit ones.</summary>
public static class LineReview
{
    /// <summary>Share of the dark levels, or of the well lit ones, in which a line must stand out: what happens now and then is an accident of its frames.</summary>
    private const double SteadyShare = 0.6;

    /// <summary>Share of a channel's lines beyond which they are its pattern and no defect.</summary>
    private const double LargestShare = 0.02;

    /// <summary>Defective lines of the region that may always be; a channel is allowed those of its lines, as each channel of a 2 × 2 pattern holds half of them.</summary>
    private const int AlwaysAllowed = 8;

    /// <summary>Shares of the brightest unclipped signal between which light is good: noise is little, and nothing saturates yet.</summary>
    private const double LowestGoodLight = 0.1;

    /// <summary>Finds the lines.</summary>
    /// <param name="levels">Statistics of all levels of a set, of one region and geometry.</param>
    /// <returns>The lines by channel and place; empty where all answer alike.</returns>
    public static IReadOnlyList<DeadLine> Of(IReadOnlyList<LevelStatistics> levels)
    {
        if (levels.Count == 0)
        {
            return [];
        }

        ColourFilterArray array = levels[0].Level.Frames[0].Raw.Layout.ColourFilterArray;
        PixelRectangle region = levels[0].Area.Region;
        return [.. array.Channels.SelectMany(channel => OfChannel(levels, channel, region))];
    }

    private static IEnumerable<DeadLine> OfChannel(IReadOnlyList<LevelStatistics> levels, SensorChannel channel, PixelRectangle region)
    {
        ChannelStatistics[] dark = [.. levels.Where(IsDark).Select(Own)];
        ChannelStatistics[] lit = [.. levels.Where(l => !IsDark(l)).Select(Own)];
        int? clip = ClipCodeFinder.Find(lit.Select(c => c.Codes));
        lit = [.. lit.Where(c => clip is not { } code || ClipCodeFinder.ShareFrom(c.Codes, code) <= 0)];
        double black = dark.Select(c => c.MeanDn).DefaultIfEmpty(0).Average();
        double top = lit.Select(c => c.MeanDn - black).DefaultIfEmpty(0).Max();
        ChannelStatistics[] good = [.. lit.Where(c => c.MeanDn - black > LowestGoodLight * top && c.MeanDn - black < SignalShare.WellBelowClip * top)];
        foreach (bool isRow in new[] { true, false })
        {
            Dictionary<int, double[]> inDark = Sightings(dark, isRow, _ => 1);
            Dictionary<int, double[]> inLight = Sightings(good, isRow, c => c.MeanDn - black);
            int[] own = [.. inDark.Keys.Union(inLight.Keys).Where(i => IsSteady(inDark.GetValueOrDefault(i, []), dark.Length) || IsSteady(inLight.GetValueOrDefault(i, []), good.Length)).Order()];
            int lines = dark.Concat(lit).Select(c => isRow ? c.Rows : c.Columns).FirstOrDefault();
            double held = lines / (double)(isRow ? region.Height : region.Width);
            if (own.Length > Math.Max(AlwaysAllowed * held, LargestShare * lines))
            {
                continue;
            }

            foreach (int line in own)
            {
                yield return new DeadLine(
                    channel,
                    isRow,
                    (isRow ? region.Y : region.X) + line,
                    inDark.GetValueOrDefault(line, []).DefaultIfEmpty(0).Average(),
                    inLight.GetValueOrDefault(line, []).DefaultIfEmpty(0).Average());
            }
        }

        ChannelStatistics Own(LevelStatistics level) => level.Channels.First(c => c.Channel == channel);
    }

    /// <summary>By how much each line stands out in the levels in which it does, in units of a level's own.</summary>
    private static Dictionary<int, double[]> Sightings(ChannelStatistics[] levels, bool isRow, Func<ChannelStatistics, double> unit) => levels
        .SelectMany(c => c.OddLines.Where(o => o.IsRow == isRow).Select(o => (o.Photosite, Off: o.OffDn / unit(c))))
        .GroupBy(o => o.Photosite, o => o.Off)
        .ToDictionary(g => g.Key, g => g.ToArray());

    /// <summary>Whether a line stands out in most of the levels that could show it, always to one side: bands of light wander, and dust does not fill a line.</summary>
    private static bool IsSteady(double[] sightings, int levels) => sightings.Length > 0 && sightings.Length >= SteadyShare * levels && Math.Abs(sightings.Sum(Math.Sign)) == sightings.Length;

    private static bool IsDark(LevelStatistics level) => level.Level.Key.Role == FrameRole.Dark;
}

/// <summary>A line of one channel that does not answer as its neighbours do, and is kept out of what is measured.</summary>
/// <param name="Channel">The channel.</param>
/// <param name="IsRow">Whether it is a row; else a column.</param>
/// <param name="Photosite">Its row or column, counted from the active area's top left.</param>
/// <param name="DarkOffDn">What it reads without light more than its neighbours, in DN; 0 where that does not stand out.</param>
/// <param name="LitOffShare">What it lacks (below 0) or has of its neighbours' signal in good light; 0 where that does not stand out.</param>
public readonly record struct DeadLine(SensorChannel Channel, bool IsRow, int Photosite, double DarkOffDn, double LitOffShare);
