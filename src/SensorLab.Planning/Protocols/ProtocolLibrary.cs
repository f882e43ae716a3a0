using System.Text.Json;

namespace SensorLab.Planning.Protocols;

/// <summary>The protocols that come with the program.</summary>
public static class ProtocolLibrary
{
    private const string Prefix = "SensorLab.Planning.Protocols.";

    private const string Suffix = ".json";

    /// <summary>Their names, in alphabetical order.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [
        .. typeof(ProtocolLibrary).Assembly.GetManifestResourceNames()
            .Where(n => n.StartsWith(Prefix, StringComparison.Ordinal))
            .Select(n => n[Prefix.Length..^Suffix.Length])
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>The protocol of a name.</summary>
    /// <param name="name">One of <see cref="Names"/>.</param>
    /// <returns>The protocol; null where none has that name.</returns>
    public static Protocol? Find(string name) =>
        Names.Contains(name, StringComparer.Ordinal) ? JsonSerializer.Deserialize(TextOf(name), ProtocolJson.Default.Protocol) : null;

    /// <summary>The document behind a protocol.</summary>
    /// <param name="name">One of <see cref="Names"/>.</param>
    /// <exception cref="ArgumentException">No protocol has that name.</exception>
    public static string TextOf(string name)
    {
        using Stream stream = typeof(ProtocolLibrary).Assembly.GetManifestResourceStream(Prefix + name + Suffix)
            ?? throw new ArgumentException($"No protocol is called {name}; there are {string.Join(", ", Names)}.", nameof(name));
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
