using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;

namespace SensorLab.Files;

/// <summary>A schema's rule and all that hold besides it, made one: each value of a document is looked at once.</summary>
/// <remarks>What is within a value gets its check when the first document has it there: a rule may refer to itself.</remarks>
internal sealed class SchemaCheck
{
    private readonly SchemaRule[] _parts;
    private readonly bool _isForbidden;
    private readonly SchemaLimit[] _limits;
    private readonly SchemaCheck[][] _choices;
    private readonly (SchemaCheck If, SchemaCheck? Then, SchemaCheck? Else)[] _conditions;
    private readonly bool _looksIntoLists;
    private readonly bool _looksIntoObjects;
    private readonly bool _looksAtNames;

    // Two threads may make one at once, the same.
    private SchemaCheck? _items;
    private SchemaCheck? _propertyNames;
    private PropertyChecks? _properties;

    private SchemaCheck(IEnumerable<SchemaRule> rules)
    {
        _parts = [.. rules.SelectMany(WithAlso).Distinct()];
        _isForbidden = _parts.Any(p => p.IsForbidden);
        _limits = [.. _parts.SelectMany(p => p.Limits)];
        _choices = [.. _parts.Where(p => p.AnyOf.Count > 0).Select(p => p.AnyOf.Select(Of).ToArray())];
        _conditions = [.. _parts.SelectMany(p => p.Conditions).Select(c => (Of(c.If), c.Then is null ? null : Of(c.Then), c.Else is null ? null : Of(c.Else)))];
        _looksIntoLists = _parts.Any(p => p.Items is not null);
        _looksAtNames = _parts.Any(p => p.PropertyNames is not null);
        _looksIntoObjects = _looksAtNames || _parts.Any(p => p.Properties.Count > 0 || p.FurtherProperties is not null);
    }

    /// <summary>The check of a rule.</summary>
    /// <param name="rule">The rule.</param>
    public static SchemaCheck Of(SchemaRule rule) => new([rule]);

    /// <summary>The first fault of a value: its own before those within it, these in document order. A null has none.</summary>
    /// <param name="value">The value.</param>
    /// <returns>The fault, its path from this value on: nothing is made of a sound value.</returns>
    public DocumentFault? FirstFault(JsonElement value) => FirstFault(SchemaValue.Of(value));

    private DocumentFault? FirstFault(SchemaValue value) =>
        value.Kind == JsonValueKind.Null ? null
        : _isForbidden ? Here("may not stand here")
        : (value.Fault() is { } fault ? Here(fault) : null) ?? OwnFault(value) ?? ConditionFault(value) ?? InnerFault(value);

    private static IEnumerable<SchemaRule> WithAlso(SchemaRule rule) => rule.Also.SelectMany(WithAlso).Prepend(rule);

    private static DocumentFault Here(string reason) => new(string.Empty, reason);

    private DocumentFault? OwnFault(SchemaValue value)
    {
        foreach (SchemaLimit limit in _limits)
        {
            if (limit.Fault(value) is { } reason)
            {
                return Here(reason);
            }
        }

        foreach (SchemaCheck[] choice in _choices)
        {
            DocumentFault? last = null;
            foreach (SchemaCheck one in choice)
            {
                last = one.FirstFault(value);
                if (last is null)
                {
                    break;
                }
            }

            if (last is not null)
            {
                return last;
            }
        }

        return null;
    }

    private DocumentFault? ConditionFault(SchemaValue value)
    {
        foreach ((SchemaCheck condition, SchemaCheck? then, SchemaCheck? otherwise) in _conditions)
        {
            SchemaCheck? check = condition.FirstFault(value) is null ? then : otherwise;
            if (check?.FirstFault(value) is { } fault)
            {
                return fault;
            }
        }

        return null;
    }

    private DocumentFault? InnerFault(SchemaValue value) => value.Kind switch
    {
        JsonValueKind.Array when _looksIntoLists => ItemFault(value.Element),
        JsonValueKind.Object when _looksIntoObjects => PropertyFault(value.Element),
        _ => null,
    };

    private DocumentFault? ItemFault(JsonElement list)
    {
        _items ??= new SchemaCheck(_parts.Select(p => p.Items).OfType<SchemaRule>());
        int index = 0;
        foreach (JsonElement item in list.EnumerateArray())
        {
            if (_items.FirstFault(item) is { } fault)
            {
                return Within(string.Create(CultureInfo.InvariantCulture, $"[{index}]"), fault);
            }

            index++;
        }

        return null;
    }

    private DocumentFault? PropertyFault(JsonElement item)
    {
        _properties ??= new PropertyChecks(_parts);
        int expected = 0;
        foreach (JsonProperty property in item.EnumerateObject())
        {
            if (NameFault(property) is { } ofName)
            {
                return Here($"has the entry \"{property.Name}\", which {ofName.Reason}");
            }

            if (_properties.Of(property, ref expected)?.FirstFault(property.Value) is { } fault)
            {
                return Within(property.Name, fault);
            }
        }

        return null;
    }

    private DocumentFault? NameFault(JsonProperty property)
    {
        if (!_looksAtNames)
        {
            return null;
        }

        _propertyNames ??= new SchemaCheck(_parts.Select(p => p.PropertyNames).OfType<SchemaRule>());
        return _propertyNames.FirstFault(JsonElement.Parse($"\"{JsonEncodedText.Encode(property.Name)}\""));
    }

    private static DocumentFault Within(string place, DocumentFault inner) => inner with
    {
        Path = inner.Path.Length == 0 || inner.Path[0] == '[' ? place + inner.Path : $"{place}.{inner.Path}",
    };

    /// <summary>The checks of an object's properties: documents have them in one order, so that the next is mostly the one that comes.</summary>
    private sealed class PropertyChecks
    {
        private readonly (byte[] Name, SchemaCheck Check)[] _inOrder;
        private readonly Dictionary<string, int> _byName = new(StringComparer.Ordinal);
        private readonly Dictionary<byte[], int> _byBytes = new(Utf8Names.Instance);
        private readonly SchemaCheck? _further;

        public PropertyChecks(SchemaRule[] parts)
        {
            SchemaRule[] further = [.. parts.Select(p => p.FurtherProperties).OfType<SchemaRule>()];
            _further = further.Length > 0 ? new SchemaCheck(further) : null;
            string[] names = [.. parts.SelectMany(p => p.Properties.Keys).Distinct(StringComparer.Ordinal)];
            _inOrder = [.. names.Select(name => (Encoding.UTF8.GetBytes(name), new SchemaCheck(parts.Select(p => p.Properties.GetValueOrDefault(name) ?? p.FurtherProperties).OfType<SchemaRule>())))];
            for (int i = 0; i < names.Length; i++)
            {
                _byName[names[i]] = i;
                _byBytes[_inOrder[i].Name] = i;
            }
        }

        /// <summary>The check of a property; null where it is free.</summary>
        /// <param name="property">The property.</param>
        /// <param name="expected">The place of the one that is expected; set to the one after it.</param>
        public SchemaCheck? Of(JsonProperty property, ref int expected)
        {
            ReadOnlySpan<byte> name = JsonMarshal.GetRawUtf8PropertyName(property);
            if (expected < _inOrder.Length && name.SequenceEqual(_inOrder[expected].Name))
            {
                return _inOrder[expected++].Check;
            }

            // A name that is escaped in the document is spelled out first.
            bool isKnown = name.Contains((byte)'\\')
                ? _byName.TryGetValue(property.Name, out int at)
                : _byBytes.GetAlternateLookup<ReadOnlySpan<byte>>().TryGetValue(name, out at);
            if (!isKnown)
            {
                return _further;
            }

            expected = at + 1;
            return _inOrder[at].Check;
        }
    }
}
