using System.Text.Json;

namespace SensorLab.Files.Tests;

public sealed class DocumentSchemaTests
{
    private const string Schema =
        """
        {
          "$schema": "https://json-schema.org/draft/2020-12/schema",
          "type": "object", "required": ["name"],
          "properties": {
            "name": { "type": "string", "minLength": 1, "maxLength": 5, "pattern": "^[a-z]+$" },
            "kind": { "enum": ["a", "b", 3] },
            "size": { "$ref": "#/$defs/size", "maximum": 9 },
            "list": { "type": "array", "minItems": 1, "maxItems": 3, "items": { "type": "integer", "minimum": 0 } },
            "map": { "type": "object", "maxProperties": 2, "propertyNames": { "pattern": "^[RGB]$" }, "additionalProperties": { "type": "number" } },
            "never": false,
            "deep": { "properties": { "deep": { "type": ["number", "null"], "exclusiveMaximum": 1 } } }
          },
          "if": { "properties": { "kind": { "const": "b" } } },
          "then": { "properties": { "size": { "minimum": 5 } } },
          "else": { "properties": { "size": { "minimum": 2 } } },
          "$defs": { "size": { "type": "number", "exclusiveMinimum": 0, "anyOf": [{ "const": 2.5 }, { "minimum": 3 }] } }
        }
        """;

    [Theory]
    [InlineData("""{}""")]
    [InlineData("""{"name": null, "later": {"name": 7}}""")]
    [InlineData("""{"name": "abc", "kind": 3, "size": 2.5, "list": [0, 7], "map": {"R": 1}, "never": null, "deep": {"deep": 0.5}}""")]
    [InlineData("""{"kind": "b", "size": 5}""")]
    public void FirstFault_SoundDocument_HasNone(string document) => Assert.Null(Fault(document));

    [Theory]
    [InlineData("""[]""", "", "is no object")]
    [InlineData("""{"name": 3}""", "name", "is no string")]
    [InlineData("""{"name": ""}""", "name", "is shorter than 1 characters")]
    [InlineData("""{"name": "abcdef"}""", "name", "is longer than 5 characters")]
    [InlineData("""{"name": "Abc"}""", "name", "is not of the form that it must have")]
    [InlineData("""{"kind": "c"}""", "kind", "is not one of \"a\", \"b\", 3")]
    [InlineData("""{"size": 10}""", "size", "is above 9")]
    [InlineData("""{"kind": "a", "size": 1}""", "size", "is below 2")]
    [InlineData("""{"kind": "a", "size": 2.6}""", "size", "is below 3")]
    [InlineData("""{"kind": "b", "size": 4}""", "size", "is below 5")]
    [InlineData("""{"size": 1e999}""", "size", "is not a finite number")]
    [InlineData("""{"list": []}""", "list", "has fewer than 1 entries")]
    [InlineData("""{"list": [1, 2, 3, 4]}""", "list", "has more than 3 entries")]
    [InlineData("""{"list": [1, 2.5]}""", "list[1]", "is no integer")]
    [InlineData("""{"map": {"X": 1}}""", "map", "has the entry \"X\", which is not of the form that it must have")]
    [InlineData("""{"map": {"R": "1"}}""", "map.R", "is no number")]
    [InlineData("""{"map": {"R": 1, "G": 1, "B": 1}}""", "map", "has more than 2 entries")]
    [InlineData("""{"never": 1}""", "never", "may not stand here")]
    [InlineData("""{"deep": {"deep": 1}}""", "deep.deep", "is not below 1")]
    public void FirstFault_ValueOutOfItsDomain_IsNamedWithItsPlace(string document, string path, string reason) =>
        Assert.Equal(new DocumentFault(path, reason), Fault(document));

    [Fact]
    public void Parse_KeywordThatIsNotKnown_IsNoSchema() =>
        Assert.Throws<ArgumentException>(() => DocumentSchema.Parse("""{"contains": {}}"""));

    private static DocumentFault? Fault(string text)
    {
        using var document = JsonDocument.Parse(text);
        return DocumentSchema.Parse(Schema).FirstFault(document.RootElement);
    }
}
