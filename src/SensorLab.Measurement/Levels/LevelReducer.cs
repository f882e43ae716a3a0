using System.Globalization;
using SensorLab.Frames;
using SensorLab.Measurement.Codes;
using SensorLab.Pixels;
using SensorLab.Pixels.Codes;
using SensorLab.Pixels.Neighbours;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Measurement.Levels;

/// <summary>Reduces an ISO's level statistics to the records that a profile keeps and that everything later works from.</summary>
public sealed class LevelReducer
{
    /// <summary>Temporal standard deviation in code steps below which rounding matters and the codes are kept.</summary>
    private const double RoundingMattersSteps = 1.0;

    /// <summary>The same of dark codes some of which are missing: over more of them their mean step says as much.</summary>
    private const double GapsMatterSteps = 3;

    private readonly Dictionary<SensorChannel, int?> _clipCodeDn = [];
    private readonly Dictionary<SensorChannel, CodeStepFinder> _codeSteps = [];

    /// <summary>Learns clip code and code step of each channel.</summary>
    /// <param name="levels">All levels of one ISO, with at least one dark level among them.</param>
    /// <exception cref="ArgumentException">There is no dark level.</exception>
    public LevelReducer(IReadOnlyList<LevelStatistics> levels)
    {
        LevelStatistics[] darks = [.. levels.Where(l => l.Level.Key.Role == FrameRole.Dark)];
        if (darks.Length == 0)
        {
            throw new ArgumentException("An ISO without dark frames cannot be reduced.", nameof(levels));
        }

        foreach (SensorChannel channel in darks[0].Channels.Select(c => c.Channel))
        {
            _clipCodeDn[channel] = ClipCodeFinder.Find(levels.Where(l => l.Level.Key.Role != FrameRole.Dark).Select(l => Of(l, channel).Codes));
            _codeSteps[channel] = new CodeStepFinder(levels, channel, _clipCodeDn[channel]);
        }
    }

    /// <summary>Reduces one level.</summary>
    /// <param name="level">Statistics of the level.</param>
    /// <returns>Its record; <see cref="LevelRecord.Ev"/> and <see cref="LevelChannel.UsedInFit"/> are not set yet.</returns>
    public LevelRecord Reduce(LevelStatistics level)
    {
        LevelKey key = level.Level.Key;
        return new LevelRecord
        {
            Role = key.Role.ToString().ToLower(CultureInfo.InvariantCulture),
            ExposureSeconds = key.ExposureSeconds,
            ApertureFNumber = key.ApertureFNumber,
            LightStep = key.LightStep,
            Light = key.Light,
            Frames = level.Level.Frames.Count,
            PixelsPerChannel = level.Channels[0].Pixels,
            RowsPerChannel = level.Channels[0].Rows,
            ColumnsPerChannel = level.Channels.All(c => c.FillsItsLines) ? null : level.Channels[0].Columns,
            Channels = [.. level.Channels.Select(c => Reduce(c, key.Role, level.Level.Frames.Count) with { Pixels = c.Pixels == level.Channels[0].Pixels ? null : c.Pixels })],
        };
    }

    private LevelChannel Reduce(ChannelStatistics channel, FrameRole role, int frames)
    {
        VarianceParts? temporal = channel.Temporal?.Parts;
        VarianceParts? fixedPattern = channel.FixedPattern;
        int? clip = _clipCodeDn[channel.Channel];
        double clipped = clip is int code && role != FrameRole.Dark ? ClipCodeFinder.ShareFrom(channel.Codes, code) : 0;
        double step = _codeSteps[channel.Channel].StepDnOf(channel);
        double noiseSteps = temporal is null ? double.PositiveInfinity : Math.Sqrt(Total(temporal)) / step;
        bool codesMatter = clipped > 0
            || noiseSteps < RoundingMattersSteps
            || (role == FrameRole.Dark && noiseSteps < GapsMatterSteps && CodeGaps.ShiftDn(channel.Codes) > 0)
            || (role == FrameRole.Dark && DarkFloor.Of(channel.Codes, frames) is not null);
        double mean = MeanUncertainty(channel);
        return new LevelChannel
        {
            Name = channel.Channel.ToString(),
            MeanDn = channel.MeanDn,
            MeanUncertaintyDn = mean,
            FrameMeansDn = channel.FrameMeansDn,
            SpotMeanDn = role == FrameRole.Metered ? channel.SpotMeanDn : null,
            SpotMeanUncertaintyDn = role == FrameRole.Metered ? SpotUncertainty(channel, mean) : null,
            TemporalVarianceDn2 = temporal is null ? null : Total(temporal),
            TemporalParts = temporal,
            FixedPatternVarianceDn2 = fixedPattern is null ? null : Total(fixedPattern),
            FixedPatternParts = fixedPattern,
            BandVarianceDn2 = channel.Temporal?.BandDn2,
            NeighbourCorrelation = CorrelationOf(channel.TemporalNeighbours),
            ClippedFraction = clipped,
            LowestCodeDn = channel.Codes.FirstCodeDn,
            HighestCodeDn = channel.Codes.FirstCodeDn + channel.Codes.Counts.Count - 1,
            CodeStepDn = step,
            Histogram = codesMatter ? channel.Codes : null,
        };
    }

    private static NeighbourCorrelation? CorrelationOf(NeighbourSums sums) => sums.VarianceDn2 > 0
        ? new NeighbourCorrelation(sums.HorizontalDn2 / sums.VarianceDn2, sums.VerticalDn2 / sums.VarianceDn2, 1 / Math.Sqrt(sums.Pairs))
        : null;

    private static double Total(VarianceParts parts) => Math.Max(0, parts.PixelDn2 + parts.RowDn2 + parts.ColumnDn2);

    /// <summary>Temporal noise of all frames, and the sampling of a fixed pattern that other pixels of the body do not share; of a single frame both together.</summary>
    private static double MeanUncertainty(ChannelStatistics channel) => channel is { Temporal: { } temporal, FixedPattern: { } fixedPattern }
        ? MeanUncertainty(channel.FrameMeansDn.Count, temporal.Parts, fixedPattern, channel.Pixels, channel.Rows, channel.Columns)
        : Math.Sqrt(Math.Max(0, channel.Blocks.VarianceDn2) / channel.Pixels);

    /// <summary>Row and column parts are unbiased and may be negative: cut off together at half the pixels' part, so that they add nothing on average where there are none.</summary>
    private static double MeanUncertainty(double frames, VarianceParts temporal, VarianceParts fixedPattern, double pixels, double rows, double columns)
    {
        double pixel = (Math.Max(0, fixedPattern.PixelDn2) + (temporal.PixelDn2 / frames)) / pixels;
        double row = (fixedPattern.RowDn2 + (temporal.RowDn2 / frames)) / rows;
        double column = (fixedPattern.ColumnDn2 + (temporal.ColumnDn2 / frames)) / columns;
        return Math.Sqrt(Math.Max(pixel / 2, pixel + row + column));
    }

    /// <summary>The mean's uncertainty over the spot's rows and columns; bands of light are wider than the spot and add in full.</summary>
    private static double SpotUncertainty(ChannelStatistics channel, double meanUncertainty)
    {
        int frames = channel.FrameMeansDn.Count;
        double spot = channel is { Temporal: { } temporal, FixedPattern: { } fixedPattern }
            ? MeanUncertainty(frames, temporal.Parts, fixedPattern, channel.SpotPixels, channel.SpotRows, channel.SpotColumns)
            : meanUncertainty * Math.Sqrt((double)channel.Pixels / channel.SpotPixels);
        return Math.Sqrt((spot * spot) + ((channel.Temporal?.BandDn2 ?? 0) / frames));
    }

    private static ChannelStatistics Of(LevelStatistics level, SensorChannel channel) => level.Channels.First(c => c.Channel == channel);
}
