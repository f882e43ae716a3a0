using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace SensorLab.Fuzzing.Documents;

/// <summary>Makes a sound JSON document unsound in the ways that structure allows: part by part, as text and as numbers.</summary>
/// <param name="seed">The same seed gives the same documents.</param>
internal sealed class DocumentMutator(int seed)
{
    private const int MostChanges = 3;
    private const int MostCopies = 3000;
    private const int DeepestNest = 40;

    // A document is not to outgrow what a person would edit by hand and a script by mistake.
    private const int LargestBytes = 8 << 20;

    private static readonly string[] Numbers =
    [
        "0", "-0.0", "1", "-1", "2", "0.5", "-0.5", "3", "60", "100", "255", "256", "600", "65535", "65536", "1000000", "2147483647", "-2147483648", "2147483648", "9223372036854775807",
        "9223372036854775808", "1e6", "-1e6", "1e9", "1e12", "-1e12", "1e15", "-1e15", "1e19", "1e60", "1e150", "1e300", "1e308", "-1e308", "1e999", "-1e999", "1e-6", "1e-12", "1e-60", "-1e-60",
        "1e-150", "1e-308", "5e-324", "1e-999", "0.1", "0.3333333333333333", "99.99999", "-100", "-99",
    ];

    private readonly Random _random = new(seed);

    /// <summary>A document with one to three changes.</summary>
    /// <param name="sound">The document.</param>
    public string Mutate(string sound)
    {
        JsonNode root = JsonNode.Parse(sound)!;
        for (int changes = _random.Next(1, MostChanges + 1); changes > 0; changes--)
        {
            Change(root);
        }

        string text = root.ToJsonString();
        return text.Length > LargestBytes ? text[..LargestBytes] : _random.Next(20) == 0 ? Damaged(text) : text;
    }

    private void Change(JsonNode root)
    {
        List<JsonNode> holders = [];
        Gather(root, holders);
        JsonNode holder = holders[_random.Next(holders.Count)];
        if (holder is JsonObject item && item.Count > 0)
        {
            ChangeProperty(item, item.ElementAt(_random.Next(item.Count)).Key);
        }
        else if (holder is JsonArray list)
        {
            ChangeList(list);
        }
    }

    private static void Gather(JsonNode? node, List<JsonNode> into)
    {
        if (node is JsonObject or JsonArray)
        {
            into.Add(node);
            foreach (JsonNode? inner in node is JsonObject item ? item.Select(p => p.Value) : node.AsArray())
            {
                Gather(inner, into);
            }
        }
    }

    private void ChangeProperty(JsonObject item, string name)
    {
        JsonNode? value = item[name];
        switch (_random.Next(8))
        {
            case 0:
                item.Remove(name);
                break;
            case 1:
                item.Remove(name);
                item[HostileStrings.All[_random.Next(HostileStrings.All.Count)]] = value?.DeepClone();
                break;
            default:
                item[name] = Other(value);
                break;
        }
    }

    private void ChangeList(JsonArray list)
    {
        if (list.Count == 0)
        {
            list.Add(Anything());
            return;
        }

        int at = _random.Next(list.Count);
        switch (_random.Next(6))
        {
            case 0:
                list.RemoveAt(at);
                break;
            case 1:
                int copies = (int)Math.Pow(MostCopies, _random.NextDouble());
                string text = list[at]?.ToJsonString() ?? "null";
                for (int i = 0; i < copies && (long)i * text.Length < LargestBytes; i++)
                {
                    list.Add(JsonNode.Parse(text));
                }

                break;
            case 2:
                list.Clear();
                break;
            case 3:
                JsonNode? moved = list[at]?.DeepClone();
                list.RemoveAt(at);
                list.Insert(0, moved);
                break;
            default:
                list[at] = Other(list[at]);
                break;
        }
    }

    // Numbers mostly become other numbers, and texts other texts: what a check of kinds alone would let through.
    private JsonNode? Other(JsonNode? value) => (value?.GetValueKind(), _random.Next(5)) switch
    {
        (JsonValueKind.Number, > 2) => Scaled(value!),
        (JsonValueKind.Number, > 0) => Number(),
        (JsonValueKind.String, > 0) => Text(),
        _ => Anything(),
    };

    private JsonNode Scaled(JsonNode number)
    {
        double scale = Math.Pow(10, (_random.NextDouble() * 40) - 20) * (_random.Next(4) == 0 ? -1 : 1);
        double value = (double.TryParse(number.ToJsonString(), CultureInfo.InvariantCulture, out double read) ? read : 1) * scale;
        return JsonNode.Parse(double.IsFinite(value) ? value.ToString("R", CultureInfo.InvariantCulture) : "1e308")!;
    }

    private JsonNode? Anything() => _random.Next(8) switch
    {
        0 => null,
        1 => true,
        2 => Number(),
        3 => Text(),
        4 => new JsonArray(),
        5 => new JsonObject(),
        6 => new JsonArray(null, Number(), Text()),
        _ => Nested(),
    };

    private JsonNode Number() => JsonNode.Parse(Numbers[_random.Next(Numbers.Length)])!;

    private JsonNode Text() => JsonValue.Create(HostileStrings.All[_random.Next(HostileStrings.All.Count)])!;

    private JsonNode Nested()
    {
        JsonNode inner = Number();
        for (int depth = _random.Next(1, DeepestNest); depth > 0; depth--)
        {
            inner = _random.Next(2) == 0 ? new JsonArray(inner) : new JsonObject { ["value"] = inner };
        }

        return inner;
    }

    private string Damaged(string text)
    {
        int at = _random.Next(text.Length);
        return _random.Next(3) switch
        {
            0 => text[..at],
            1 => text[..at] + (char)_random.Next(1, 0x300) + text[at..],
            _ => text + text,
        };
    }
}
