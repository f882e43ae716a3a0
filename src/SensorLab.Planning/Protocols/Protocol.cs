namespace SensorLab.Planning.Protocols;

/// <summary>What to shoot, apart from body, light and mains: the document <c>protocols/NAME.json</c>.</summary>
public sealed record Protocol
{
    /// <summary>The name that <c>--protocol</c> takes.</summary>
    public required string Name { get; init; }

    /// <summary>The version: sets are compared with sets of the same version.</summary>
    public required int Version { get; init; }

    /// <summary>Its name as people say it.</summary>
    public required string Title { get; init; }

    /// <summary>What it is for, in a sentence.</summary>
    public required string Purpose { get; init; }

    /// <summary>The ISOs where the user names none, in shooting order.</summary>
    public required IReadOnlyList<int> Isos { get; init; }

    /// <summary>How often the shot list is shot, and when.</summary>
    public required IReadOnlyList<ProtocolSet> Sets { get; init; }

    /// <summary>The metered frames.</summary>
    public required ProtocolMetered Metered { get; init; }

    /// <summary>The bracket.</summary>
    public required ProtocolBracket Bracket { get; init; }

    /// <summary>The dark frames.</summary>
    public required ProtocolDarks Dark { get; init; }

    /// <summary>Picture settings in which the bracket is shot: the first with all frames, the others with one a level; none where looks don't matter.</summary>
    public required IReadOnlyList<string> Looks { get; init; }

    /// <summary>Lights under which the field is metered beside the bracket's own.</summary>
    public required IReadOnlyList<string> Lights { get; init; }

    /// <summary>What to do before the first frame.</summary>
    public required IReadOnlyList<string> Preparations { get; init; }

    /// <summary>What can hurt, and who decides.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}
