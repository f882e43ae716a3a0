using System.Text;
using System.Text.Json;

namespace SensorLab.Files;

/// <summary>A schema's rule and all that hold besides it, made one, for a document that is read once and most likely sound.</summary>
/// <remarks>
/// Says sound only of what <see cref="SchemaCheck"/> finds no fault in, in a third of its time and with no tree of the
/// document; it knows neither what is wrong nor always whether something is. Whoever asks leaves that to the other.
/// </remarks>
internal sealed class SchemaPass
{
    // A double's range takes more digits than these, unless an exponent says it.
    private const int MostPlainDigits = 100;

    private readonly SchemaRule[] _parts;
    private readonly bool _isForbidden;
    private readonly int _kinds;
    private readonly double _least;
    private readonly double _greatest;
    private readonly SchemaLimit.OnToken[] _limits;
    private readonly SchemaPass[][] _choices;
    private readonly (SchemaPass If, SchemaPass? Then, SchemaPass? Else)[] _conditions;
    private readonly bool _looksIntoLists;
    private readonly bool _looksIntoObjects;
    private readonly bool _isOfNamesAlone;
    private readonly bool _takesAnyPositive;

    // Two threads may make one at once, the same: a rule may refer to itself.
    private SchemaPass? _items;
    private PropertyPasses? _properties;

    private SchemaPass(IEnumerable<SchemaRule> rules)
    {
        _parts = [.. rules.SelectMany(WithAlso).Distinct()];
        _isForbidden = _parts.Any(p => p.IsForbidden);
        SchemaLimit[] limits = [.. _parts.SelectMany(p => p.Limits)];

        // Kinds and ranges, which nearly all values have, as one comparison each.
        _kinds = limits.Select(l => l.Kinds).OfType<IReadOnlyList<JsonValueKind>>().Aggregate(~0, (all, kinds) => all & kinds.Aggregate(0, (some, kind) => some | BitOf(kind)));
        _least = limits.Max(l => l.Least) ?? double.NegativeInfinity;
        _greatest = limits.Min(l => l.Greatest) ?? double.PositiveInfinity;
        _limits = [.. limits.Where(l => l.Kinds is null && l.Least is null).Select(l => l.Holds)];
        _choices = [.. _parts.Where(p => p.AnyOf.Count > 0).Select(p => p.AnyOf.Select(Of).ToArray())];
        _conditions = [.. _parts.SelectMany(p => p.Conditions).Select(c => (Of(c.If), c.Then is null ? null : Of(c.Then), c.Else is null ? null : Of(c.Else)))];
        _takesAnyPositive = (_kinds & BitOf(JsonValueKind.Number)) != 0 && _least <= 0 && double.IsPositiveInfinity(_greatest) && _limits.Length == 0 && _choices.Length == 0 && _conditions.Length == 0;
        _looksIntoLists = _parts.Any(p => p.Items is not null);
        _looksIntoObjects = _parts.Any(p => p.PropertyNames is not null || p.Properties.Count > 0 || p.FurtherProperties is not null);
        _isOfNamesAlone = limits.Length == 0 && _choices.Length == 0 && _conditions.Length == 0 && _parts.All(p => p.PropertyNames is null && p.FurtherProperties is null);
    }

    /// <summary>The pass of a rule.</summary>
    /// <param name="rule">The rule.</param>
    public static SchemaPass Of(SchemaRule rule) => new([rule]);

    /// <summary>Whether the value that a reader stands at, and all within it, is sound.</summary>
    /// <param name="reader">Ends on the value's last token, where it is.</param>
    /// <returns>True where it is; false where it is not; null where that is not known.</returns>
    /// <exception cref="JsonException">The document is damaged.</exception>
    /// <exception cref="InvalidOperationException">A text holds half of a sign.</exception>
    public bool? IsSound(ref Utf8JsonReader reader)
    {
        if (reader.TokenType == JsonTokenType.Null)
        {
            return true;
        }

        if (_isForbidden)
        {
            return false;
        }

        if (_takesAnyPositive && IsPlainlyPositive(reader))
        {
            return true;
        }

        SchemaToken value = SchemaToken.Of(ref reader);
        return value.Kind is JsonValueKind.Array or JsonValueKind.Object ? IsSoundInside(ref reader, value.Kind) : IsSoundAlone(value);
    }

    // What most numbers are, and what needs no reading of their digits.
    private static bool IsPlainlyPositive(in Utf8JsonReader reader) =>
        reader.TokenType == JsonTokenType.Number && reader.ValueSpan is { Length: < MostPlainDigits } digits && digits[0] != (byte)'-' && !digits.ContainsAny((byte)'e', (byte)'E');

    private static IEnumerable<SchemaRule> WithAlso(SchemaRule rule) => rule.Also.SelectMany(WithAlso).Prepend(rule);

    private bool? IsSoundAlone(in SchemaToken value)
    {
        if (_isForbidden)
        {
            return false;
        }

        if ((_kinds & BitOf(value.Kind)) == 0 || (value.Kind == JsonValueKind.Number && !(value.Number >= _least && value.Number <= _greatest && double.IsFinite(value.Number))))
        {
            return false;
        }

        foreach (SchemaLimit.OnToken limit in _limits)
        {
            if (limit(value) is not true and var held)
            {
                return held;
            }
        }

        foreach (SchemaPass[] choice in _choices)
        {
            if (AnyOf(choice, value) is not true and var any)
            {
                return any;
            }
        }

        foreach ((SchemaPass condition, SchemaPass? then, SchemaPass? otherwise) in _conditions)
        {
            bool? held = condition.IsSoundAlone(value);
            SchemaPass? next = held == true ? then : otherwise;
            if (held is null || (next is not null && next.IsSoundAlone(value) != true))
            {
                return null;
            }
        }

        return true;
    }

    private static int BitOf(JsonValueKind kind) => 1 << (int)kind;

    private static bool? AnyOf(SchemaPass[] choice, in SchemaToken value)
    {
        bool? any = false;
        foreach (SchemaPass one in choice)
        {
            bool? held = one.IsSoundAlone(value);
            if (held == true)
            {
                return true;
            }

            any = held is null ? null : any;
        }

        return any;
    }

    private bool? IsSoundInside(ref Utf8JsonReader reader, JsonValueKind kind)
    {
        if ((_kinds & BitOf(kind)) == 0)
        {
            return false;
        }

        // None of our schemas offers a list or an object a choice.
        if (_choices.Length > 0)
        {
            return null;
        }

        foreach ((SchemaPass condition, SchemaPass? then, SchemaPass? otherwise) in _conditions)
        {
            Utf8JsonReader ahead = reader;
            bool? held = condition.IsSoundAhead(ref ahead);
            SchemaPass? next = held == true ? then : otherwise;
            ahead = reader;
            if (held is null || (next is not null && next.IsSoundAhead(ref ahead) != true))
            {
                return null;
            }
        }

        bool? inside = kind == JsonValueKind.Array ? AreItemsSound(ref reader, out int count) : ArePropertiesSound(ref reader, untilAllAreSeen: false, out count);
        if (inside != true)
        {
            return inside;
        }

        var value = new SchemaToken(kind, []) { Count = count };
        foreach (SchemaLimit.OnToken limit in _limits)
        {
            if (limit(value) is not true and var held)
            {
                return held;
            }
        }

        return true;
    }

    // Looks no farther than it must.
    private bool? IsSoundAhead(ref Utf8JsonReader reader) =>
        _isOfNamesAlone && !_isForbidden && reader.TokenType == JsonTokenType.StartObject ? ArePropertiesSound(ref reader, untilAllAreSeen: true, out _) : IsSound(ref reader);

    private bool? AreItemsSound(ref Utf8JsonReader reader, out int count)
    {
        count = 0;
        SchemaPass? items = !_looksIntoLists ? null : _items ??= new SchemaPass(_parts.Select(p => p.Items).OfType<SchemaRule>());
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            count++;
            if (items is null)
            {
                reader.Skip();
            }
            else if (items.IsSound(ref reader) is not true and var sound)
            {
                return sound;
            }
        }

        return true;
    }

    private bool? ArePropertiesSound(ref Utf8JsonReader reader, bool untilAllAreSeen, out int count)
    {
        count = 0;
        int seen = 0;
        int expected = 0;
        PropertyPasses? properties = !_looksIntoObjects ? null : _properties ??= new PropertyPasses(_parts);
        while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
        {
            count++;
            if (reader.ValueIsEscaped || (properties?.Names is { } names && names.IsSoundAlone(SchemaToken.Of(ref reader)) != true))
            {
                return null;
            }

            SchemaPass? pass = properties?.Of(reader.ValueSpan, ref expected);
            reader.Read();
            if (pass is null)
            {
                reader.Skip();
            }
            else if (pass.IsSound(ref reader) is not true and var sound)
            {
                return sound;
            }
            else if (untilAllAreSeen && ++seen == properties!.Count)
            {
                return true;
            }
        }

        return true;
    }

    /// <summary>The passes of an object's properties: documents have them in one order, so that the next is mostly the one that comes.</summary>
    private sealed class PropertyPasses
    {
        private readonly (byte[] Name, SchemaPass Pass)[] _inOrder;
        private readonly Dictionary<byte[], int> _byName = new(Utf8Names.Instance);
        private readonly SchemaPass? _further;

        public PropertyPasses(SchemaRule[] parts)
        {
            SchemaRule[] further = [.. parts.Select(p => p.FurtherProperties).OfType<SchemaRule>()];
            _further = further.Length > 0 ? new SchemaPass(further) : null;
            SchemaRule[] ofNames = [.. parts.Select(p => p.PropertyNames).OfType<SchemaRule>()];
            Names = ofNames.Length > 0 ? new SchemaPass(ofNames) : null;
            string[] names = [.. parts.SelectMany(p => p.Properties.Keys).Distinct(StringComparer.Ordinal)];
            _inOrder = [.. names.Select(name => (Encoding.UTF8.GetBytes(name), new SchemaPass(parts.Select(p => p.Properties.GetValueOrDefault(name) ?? p.FurtherProperties).OfType<SchemaRule>())))];
            for (int i = 0; i < names.Length; i++)
            {
                _byName[_inOrder[i].Name] = i;
            }
        }

        /// <summary>How many are named.</summary>
        public int Count => _inOrder.Length;

        /// <summary>The pass of names; null where they are free.</summary>
        public SchemaPass? Names { get; }

        /// <summary>The pass of a property; null where it is free.</summary>
        /// <param name="name">Its name.</param>
        /// <param name="expected">The place of the one that is expected; set to the one after it.</param>
        public SchemaPass? Of(ReadOnlySpan<byte> name, ref int expected)
        {
            if (expected < _inOrder.Length && name.SequenceEqual(_inOrder[expected].Name))
            {
                return _inOrder[expected++].Pass;
            }

            if (!_byName.GetAlternateLookup<ReadOnlySpan<byte>>().TryGetValue(name, out int at))
            {
                return _further;
            }

            expected = at + 1;
            return _inOrder[at].Pass;
        }
    }
}
