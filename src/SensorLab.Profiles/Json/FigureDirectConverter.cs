using System.Text.Json;

namespace SensorLab.Profiles.Json;

/// <summary>Reads a figure with its budget.</summary>
internal sealed class FigureDirectConverter : DirectConverter<Figure>
{
    private static readonly byte[][] Names = PropertyWalk.NamesOf("value", "standardUncertainty", "lower95", "upper95", "degreesOfFreedom", "atLeast", "atMost", "budget");
    private static readonly byte[][] BudgetNames = PropertyWalk.NamesOf("standardUncertainty", "lower95", "upper95", "degreesOfFreedom", "parts");
    private static readonly byte[][] PartNames = PropertyWalk.NamesOf("source", "standardUncertainty", "from");
    private static readonly (byte[], string)[] Sources = [.. new[] { BudgetSource.Sampling, BudgetSource.Meter, BudgetSource.Shutter, BudgetSource.Light, BudgetSource.Aperture, BudgetSource.Temperature }.Select(s => (PropertyWalk.NamesOf(s)[0], s))];
    private static readonly (byte[], string)[] Origins = [.. new[] { BudgetOrigin.Set, BudgetOrigin.Protocol, BudgetOrigin.Repeats }.Select(s => (PropertyWalk.NamesOf(s)[0], s))];

    public override Figure Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        Require(ref reader, JsonTokenType.StartObject);
        double? value = null, uncertainty = null, lower = null, upper = null, freedom = null, atLeast = null, atMost = null;
        FigureBudget? budget = null;
        var walk = new PropertyWalk(Names);
        while (walk.Next(ref reader) is >= 0 and int at)
        {
            switch (at)
            {
                case 0: value = NumberOrNull(ref reader); break;
                case 1: uncertainty = NumberOrNull(ref reader); break;
                case 2: lower = NumberOrNull(ref reader); break;
                case 3: upper = NumberOrNull(ref reader); break;
                case 4: freedom = NumberOrNull(ref reader); break;
                case 5: atLeast = NumberOrNull(ref reader); break;
                case 6: atMost = NumberOrNull(ref reader); break;
                default: budget = reader.TokenType == JsonTokenType.Null ? null : Budget(ref reader); break;
            }
        }

        return new Figure { Value = value, StandardUncertainty = uncertainty, Lower95 = lower, Upper95 = upper, DegreesOfFreedom = freedom, AtLeast = atLeast, AtMost = atMost, Budget = budget };
    }

    private static FigureBudget Budget(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.StartObject);
        double uncertainty = 0, lower = 0, upper = 0;
        double? freedom = null;
        var parts = new List<BudgetPart>();
        var walk = new PropertyWalk(BudgetNames);
        while (walk.Next(ref reader) is >= 0 and int at)
        {
            switch (at)
            {
                case 0: uncertainty = Number(ref reader); break;
                case 1: lower = Number(ref reader); break;
                case 2: upper = Number(ref reader); break;
                case 3: freedom = NumberOrNull(ref reader); break;
                default:
                    Require(ref reader, JsonTokenType.StartArray);
                    while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
                    {
                        parts.Add(Part(ref reader));
                    }

                    break;
            }
        }

        walk.Require(0b10111);
        return new FigureBudget { StandardUncertainty = uncertainty, Lower95 = lower, Upper95 = upper, DegreesOfFreedom = freedom, Parts = parts };
    }

    private static BudgetPart Part(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.StartObject);
        string source = string.Empty, from = string.Empty;
        double uncertainty = 0;
        var walk = new PropertyWalk(PartNames);
        while (walk.Next(ref reader) is >= 0 and int at)
        {
            switch (at)
            {
                case 0: source = Word(ref reader, Sources); break;
                case 1: uncertainty = Number(ref reader); break;
                default: from = Word(ref reader, Origins); break;
            }
        }

        walk.Require(0b111);
        return new BudgetPart(source, uncertainty, from);
    }
}
