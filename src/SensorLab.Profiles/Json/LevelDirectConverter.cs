using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace SensorLab.Profiles.Json;

/// <summary>Reads a level with its channels.</summary>
internal sealed class LevelDirectConverter : DirectConverter<LevelRecord>
{
    private static readonly byte[][] Names = PropertyWalk.NamesOf(
        "role", "exposureSeconds", "apertureFNumber", "lightStep", "light", "ev", "frames", "pixelsPerChannel", "rowsPerChannel", "columnsPerChannel", "previewCodes", "channels");

    private static readonly byte[][] ChannelNames = PropertyWalk.NamesOf(
        "name", "pixels", "meanDn", "meanUncertaintyDn", "frameMeansDn", "spotMeanDn", "spotMeanUncertaintyDn", "temporalVarianceDn2", "temporalParts", "fixedPatternVarianceDn2",
        "fixedPatternParts", "bandVarianceDn2", "neighbourCorrelation", "clippedFraction", "lowestCodeDn", "highestCodeDn", "codeStepDn", "usedInFit", "histogram");

    private static readonly byte[][] PartNames = PropertyWalk.NamesOf("pixelDn2", "pixelUncertaintyDn2", "rowDn2", "rowUncertaintyDn2", "columnDn2", "columnUncertaintyDn2");
    private static readonly byte[][] CorrelationNames = PropertyWalk.NamesOf("horizontal", "vertical", "standardUncertainty");
    private static readonly byte[][] HistogramNames = PropertyWalk.NamesOf("firstCodeDn", "counts");

    private static readonly (byte[], string)[] Roles = [.. new[] { RoleName.Bracket, RoleName.Dark, RoleName.Metered, RoleName.Light }.Select(s => (PropertyWalk.NamesOf(s)[0], s))];
    private static readonly (byte[], string)[] Channels = [.. ChannelName.InOrder.Select(s => (PropertyWalk.NamesOf(s)[0], s))];

    public override LevelRecord Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        Require(ref reader, JsonTokenType.StartObject);
        string role = string.Empty;
        string? lightStep = null, light = null;
        double exposure = 0;
        double? aperture = null, ev = null;
        int frames = 0;
        long pixels = 0;
        int? rows = null, columns = null;
        IReadOnlyList<PreviewCodes>? codes = null;
        var channels = new List<LevelChannel>(ChannelName.InOrder.Length);
        var walk = new PropertyWalk(Names);
        while (walk.Next(ref reader) is >= 0 and int at)
        {
            switch (at)
            {
                case 0: role = Word(ref reader, Roles); break;
                case 1: exposure = Number(ref reader); break;
                case 2: aperture = NumberOrNull(ref reader); break;
                case 3: lightStep = TextOrNull(ref reader); break;
                case 4: light = TextOrNull(ref reader); break;
                case 5: ev = NumberOrNull(ref reader); break;
                case 6: frames = Whole(ref reader); break;
                case 7: pixels = Count(ref reader); break;
                case 8: rows = WholeOrNull(ref reader); break;
                case 9: columns = WholeOrNull(ref reader); break;
                case 10: codes = JsonSerializer.Deserialize(ref reader, (JsonTypeInfo<IReadOnlyList<PreviewCodes>>)options.GetTypeInfo(typeof(IReadOnlyList<PreviewCodes>))); break;
                default:
                    Require(ref reader, JsonTokenType.StartArray);
                    while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
                    {
                        channels.Add(Channel(ref reader));
                    }

                    break;
            }
        }

        walk.Require(0b1000_1100_0011);
        return new LevelRecord
        {
            Role = role, ExposureSeconds = exposure, ApertureFNumber = aperture, LightStep = lightStep, Light = light, Ev = ev, Frames = frames,
            PixelsPerChannel = pixels, RowsPerChannel = rows, ColumnsPerChannel = columns, PreviewCodes = codes, Channels = channels,
        };
    }

    private static LevelChannel Channel(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.StartObject);
        string name = string.Empty;
        long? pixels = null;
        double mean = 0, meanUncertainty = 0, clipped = 0, codeStep = 0;
        List<double>? frameMeans = null;
        double? spot = null, spotUncertainty = null, temporal = null, fixedPattern = null, band = null;
        VarianceParts? temporalParts = null, fixedParts = null;
        NeighbourCorrelation? correlation = null;
        int? lowest = null, highest = null;
        bool isUsed = false;
        CodeHistogram? histogram = null;
        var walk = new PropertyWalk(ChannelNames);
        while (walk.Next(ref reader) is >= 0 and int at)
        {
            switch (at)
            {
                case 0: name = Word(ref reader, Channels); break;
                case 1: pixels = reader.TokenType == JsonTokenType.Null ? null : Count(ref reader); break;
                case 2: mean = Number(ref reader); break;
                case 3: meanUncertainty = Number(ref reader); break;
                case 4: frameMeans = Numbers(ref reader); break;
                case 5: spot = NumberOrNull(ref reader); break;
                case 6: spotUncertainty = NumberOrNull(ref reader); break;
                case 7: temporal = NumberOrNull(ref reader); break;
                case 8: temporalParts = reader.TokenType == JsonTokenType.Null ? null : Parts(ref reader); break;
                case 9: fixedPattern = NumberOrNull(ref reader); break;
                case 10: fixedParts = reader.TokenType == JsonTokenType.Null ? null : Parts(ref reader); break;
                case 11: band = NumberOrNull(ref reader); break;
                case 12: correlation = reader.TokenType == JsonTokenType.Null ? null : Correlation(ref reader); break;
                case 13: clipped = Number(ref reader); break;
                case 14: lowest = WholeOrNull(ref reader); break;
                case 15: highest = WholeOrNull(ref reader); break;
                case 16: codeStep = Number(ref reader); break;
                case 17: isUsed = reader.GetBoolean(); break;
                default: histogram = reader.TokenType == JsonTokenType.Null ? null : Histogram(ref reader); break;
            }
        }

        walk.Require(0b101);
        return new LevelChannel
        {
            Name = name, Pixels = pixels, MeanDn = mean, MeanUncertaintyDn = meanUncertainty, FrameMeansDn = frameMeans!, SpotMeanDn = spot, SpotMeanUncertaintyDn = spotUncertainty,
            TemporalVarianceDn2 = temporal, TemporalParts = temporalParts, FixedPatternVarianceDn2 = fixedPattern, FixedPatternParts = fixedParts, BandVarianceDn2 = band,
            NeighbourCorrelation = correlation, ClippedFraction = clipped, LowestCodeDn = lowest, HighestCodeDn = highest, CodeStepDn = codeStep, UsedInFit = isUsed, Histogram = histogram,
        };
    }

    private static VarianceParts Parts(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.StartObject);
        Span<double> parts = stackalloc double[6];
        var walk = new PropertyWalk(PartNames);
        while (walk.Next(ref reader) is >= 0 and int at)
        {
            parts[at] = Number(ref reader);
        }

        walk.Require(0b111111);
        return new VarianceParts { PixelDn2 = parts[0], PixelUncertaintyDn2 = parts[1], RowDn2 = parts[2], RowUncertaintyDn2 = parts[3], ColumnDn2 = parts[4], ColumnUncertaintyDn2 = parts[5] };
    }

    private static NeighbourCorrelation Correlation(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.StartObject);
        Span<double> parts = stackalloc double[3];
        var walk = new PropertyWalk(CorrelationNames);
        while (walk.Next(ref reader) is >= 0 and int at)
        {
            parts[at] = Number(ref reader);
        }

        walk.Require(0b111);
        return new NeighbourCorrelation(parts[0], parts[1], parts[2]);
    }

    private static CodeHistogram Histogram(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.StartObject);
        int first = 0;
        var counts = new List<long>();
        var walk = new PropertyWalk(HistogramNames);
        while (walk.Next(ref reader) is >= 0 and int at)
        {
            if (at == 0)
            {
                first = Whole(ref reader);
                continue;
            }

            Require(ref reader, JsonTokenType.StartArray);
            while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
            {
                counts.Add(Count(ref reader));
            }
        }

        walk.Require(0b11);
        return new CodeHistogram(first, counts);
    }

    private static List<double> Numbers(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.StartArray);
        var numbers = new List<double>();
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            numbers.Add(Number(ref reader));
        }

        return numbers;
    }

    private static string? TextOrNull(ref Utf8JsonReader reader) => reader.TokenType == JsonTokenType.Null ? null : Text(ref reader);
}
