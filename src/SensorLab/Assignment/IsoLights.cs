using SensorLab.Sets;

namespace SensorLab.Assignment;

/// <summary>The lights of one ISO's frames with names: the metered one has none, the others the plan's or one that tells their size.</summary>
internal sealed class IsoLights
{
    private readonly LightSteps _steps;
    private readonly string?[] _names;
    private readonly int _base;

    /// <summary>Finds and names the lights.</summary>
    /// <param name="lit">The ISO's metered and bracket frames, in the order in which they were taken.</param>
    /// <param name="isMetered">Whether a frame was metered.</param>
    /// <param name="nameOf">What a plan calls the light step of a frame; null for none.</param>
    public IsoLights(IReadOnlyList<SeenFrame> lit, Func<SeenFrame, bool> isMetered, Func<SeenFrame, string?> nameOf)
    {
        _steps = LightSteps.Of([.. lit.Select(f => f.Light)]);
        Dictionary<LightReading, SeenFrame> frameOf = lit.ToDictionary(f => f.Light);
        SeenFrame[][] groups = [.. _steps.Groups.Select(g => g.Readings.Select(r => frameOf[r]).ToArray())];
        _names = new string?[_steps.Groups.Count];
        _base = Enumerable.Range(0, _names.Length)
            .OrderByDescending(g => groups[g].Count(isMetered))
            .ThenByDescending(g => groups[g].Count(f => nameOf(f) is null))
            .FirstOrDefault(-1);
        var taken = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        int number = 0;
        foreach (int group in Enumerable.Range(0, _names.Length).Where(g => g != _base))
        {
            string? planned = groups[group].Select(nameOf).OfType<string>().GroupBy(n => n, StringComparer.OrdinalIgnoreCase).OrderByDescending(g => g.Count()).FirstOrDefault()?.Key;
            number++;
            _names[group] = planned is not null && taken.Add(planned) ? planned : FormattableString.Invariant($"step {number}, {SizeOf(group)}");
        }
    }

    /// <summary>Whether all frames were shot in one light.</summary>
    public bool IsOne => _steps.Groups.Count < 2;

    /// <summary>The metered light as log2 of signal per second; null where none could be told.</summary>
    public double? BaseEv => _base < 0 ? null : _steps.Groups[_base].LightEv;

    /// <summary>Whether a frame's own signal, or its neighbours in time, tell its light.</summary>
    public bool Tells(SeenFrame frame) => _steps.GroupOf(frame.Light) is not null && !_steps.IsDoubtful(frame.Light);

    /// <summary>The light step of a frame: null for the metered light, and where nothing tells.</summary>
    public string? NameOf(SeenFrame frame) => _steps.GroupOf(frame.Light) is { } group ? _names[group] : null;

    /// <summary>How many frames were shot in a frame's light; 0 where nothing tells it.</summary>
    public int CountOf(SeenFrame frame) => _steps.GroupOf(frame.Light) is { } group ? _steps.Groups[group].Readings.Count : 0;

    /// <summary>How a frame's light differs from the metered one, in words; null where it does not.</summary>
    public string? DifferenceOf(SeenFrame frame) => _steps.GroupOf(frame.Light) is { } group && group != _base ? SizeOf(group) : null;

    private string SizeOf(int group)
    {
        double stops = _steps.Groups[group].LightEv - _steps.Groups[_base].LightEv;
        return FormattableString.Invariant($"{Math.Abs(stops):0.0} stops {(stops < 0 ? "less" : "more")} light");
    }
}
