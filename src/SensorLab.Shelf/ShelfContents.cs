namespace SensorLab.Shelf;

/// <summary>What is on the shelf.</summary>
/// <param name="Profiles">All profiles: bodies by name, a body's by time.</param>
/// <param name="Damaged">Files among the profiles that are none, or not the ones that were kept: they are left out, and why.</param>
public sealed record ShelfContents(IReadOnlyList<ShelvedProfile> Profiles, IReadOnlyList<TakenIn> Damaged)
{
    /// <summary>The bodies, by name.</summary>
    public IReadOnlyList<ShelfBody> Bodies => [.. Profiles.Select(p => p.Body).Distinct()];

    /// <summary>The bodies that a text names.</summary>
    /// <param name="text">A serial number, a whole name, an id, or words of a name; null for all.</param>
    /// <returns>Those that it names exactly, where there are any; else those whose names hold its words.</returns>
    public IReadOnlyList<ShelfBody> BodiesOf(string? text)
    {
        if (text is null)
        {
            return Bodies;
        }

        ShelfBody[] exact = [.. Bodies.Where(b => b.IsExactly(text))];
        return exact.Length > 0 ? exact : [.. Bodies.Where(b => b.Fits(text))];
    }

    /// <summary>The one body that a text names.</summary>
    /// <param name="text">As for <see cref="BodiesOf"/>.</param>
    /// <exception cref="BodyUnknownException">It names none, or several.</exception>
    public ShelfBody BodyOf(string? text)
    {
        IReadOnlyList<ShelfBody> fitting = BodiesOf(text);
        return fitting switch
        {
            [var one] => one,
            [] when Profiles.Count == 0 => throw new BodyUnknownException("the shelf is empty: sensorlab shelf add PROFILE.json puts a profile on it.", []),
            [] => throw new BodyUnknownException($"no body on the shelf is called \"{text}\". There are:", Bodies),
            _ when text is null => throw new BodyUnknownException("the shelf holds several bodies; name one with --body:", fitting),
            _ => throw new BodyUnknownException($"\"{text}\" fits several bodies on the shelf; name one, as by its serial number:", fitting),
        };
    }

    /// <summary>The bodies of the one model that a text names.</summary>
    /// <param name="text">Words of the model's name; null where the shelf holds one.</param>
    /// <exception cref="BodyUnknownException">It names none, or several.</exception>
    public IReadOnlyList<ShelfBody> ModelOf(string? text)
    {
        ShelfBody[] fitting = [.. Bodies.Where(b => text is null || IsModel(b, text))];
        ShelfBody[] exact = [.. fitting.Where(b => text is not null && (string.Equals(b.Model, text, StringComparison.OrdinalIgnoreCase) || string.Equals(b.ModelName, text, StringComparison.OrdinalIgnoreCase)))];
        ShelfBody[][] models = [.. (exact.Length > 0 ? exact : fitting).GroupBy(b => (b.Maker, b.Model)).Select(g => g.ToArray())];
        return models switch
        {
            [var one] => one,
            [] => [BodyOf(text)],
            _ => throw new BodyUnknownException(text is null ? "the shelf holds several models; name one with --model:" : $"\"{text}\" fits several models on the shelf:", [.. models.Select(m => m[0])]),
        };
    }

    /// <summary>A body's profiles, by time.</summary>
    /// <param name="body">The body.</param>
    public IReadOnlyList<ShelvedProfile> Of(ShelfBody body) => [.. Profiles.Where(p => p.Body.Id == body.Id)];

    /// <summary>The profile of a body to work with: its newest; by their keys where several are of one time, or none has one.</summary>
    /// <param name="body">A body of the shelf.</param>
    public ShelvedProfile NewestOf(ShelfBody body) => Profiles.Last(p => p.Body.Id == body.Id);

    private static bool IsModel(ShelfBody body, string text) =>
        text.Split(' ', StringSplitOptions.RemoveEmptyEntries).All(word => body.ModelName.Contains(word, StringComparison.OrdinalIgnoreCase));
}
