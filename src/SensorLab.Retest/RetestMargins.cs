namespace SensorLab.Retest;

/// <summary>The margin of every figure that gets a verdict; a figure without one is listed and not judged.</summary>
/// <remarks>
/// Measurement model, section 10. Saturation in e⁻ is saturation in DN times gain, so that its margin is the sum of
/// theirs: two changes that do not matter cannot together make a third one that does.
/// </remarks>
public sealed class RetestMargins
{
    private readonly Dictionary<string, Margin> _set;

    private RetestMargins(Dictionary<string, Margin> set) => _set = set;

    /// <summary>The documented defaults, by figure; those of all criteria under <c>belowEv</c>, of all looks under <c>clipEv</c>.</summary>
    public static IReadOnlyDictionary<string, Margin> Documented { get; } = new Dictionary<string, Margin>(StringComparer.Ordinal)
    {
        ["aboveEv"] = new(0.1, MarginUnit.Ev),
        ["firstClipEv"] = new(0.1, MarginUnit.Ev),
        ["belowEv"] = new(0.1, MarginUnit.Ev),
        ["middleGreyDn"] = new(0.1, MarginUnit.Ev),
        ["gainElectronPerDn"] = new(0.02, MarginUnit.Relative),
        ["readNoiseElectron"] = new(0.05, MarginUnit.Relative),
        ["readNoiseDn"] = new(0.05, MarginUnit.Relative),
        ["saturationDn"] = new(0.01, MarginUnit.Relative),
        ["saturationElectron"] = new(0.03, MarginUnit.Relative),
        ["blackLevelDn"] = new(1, MarginUnit.Dn),
        ["clipEv"] = new(0.15, MarginUnit.Ev),
    };

    /// <summary>The documented defaults alone.</summary>
    public static RetestMargins Default { get; } = new([]);

    /// <summary>The same margins with one set by the user.</summary>
    /// <param name="figure">
    /// A figure's whole name (<c>belowEv.snr10.perPixel</c>), its beginning (<c>belowEv</c>, <c>belowEv.snr10</c>) or its end (<c>spanEv</c>, <c>clipEv</c>).
    /// </param>
    /// <param name="margin">The margin.</param>
    /// <exception cref="MarginException">No figure is called so, or the unit is not one of its.</exception>
    public RetestMargins With(string figure, Margin margin)
    {
        if (!IsKnown(figure))
        {
            throw new MarginException($"no figure is called \"{figure}\"; there are {string.Join(", ", FigureName.Known)}.");
        }

        if (!FigureName.Allows(figure, margin.Unit))
        {
            string units = FigureName.IsEv(figure) ? "0.1ev" : FigureName.Allows(figure, MarginUnit.Dn) ? "2%, 0.1ev or 1dn" : "2% or 0.1ev";
            throw new MarginException($"a margin of {figure} is written as {units}.");
        }

        return new RetestMargins(new Dictionary<string, Margin>(_set, StringComparer.Ordinal) { [figure] = margin });
    }

    /// <summary>The margin of a figure.</summary>
    /// <param name="name">Its whole name.</param>
    /// <returns>What the user set, else the default; null where there is none.</returns>
    public Margin? Of(string name)
    {
        string[] names = [.. NamesOf(name)];
        return names.Where(_set.ContainsKey).Select(n => (Margin?)_set[n]).FirstOrDefault()
            ?? names.Where(Documented.ContainsKey).Select(n => (Margin?)Documented[n]).FirstOrDefault();
    }

    internal MarginUnit UnitOf(string name) => Of(name)?.Unit ?? FigureName.UnitOf(name);

    /// <summary>The whole name, its beginnings from the longest, its end.</summary>
    private static IEnumerable<string> NamesOf(string name)
    {
        string[] parts = name.Split('.');
        for (int length = parts.Length; length > 0; length--)
        {
            yield return string.Join('.', parts[..length]);
        }

        yield return parts[^1];
    }

    private static bool IsKnown(string figure) =>
        FigureName.Known.Contains(figure)
        || (figure.Split('.') is ["belowEv", ['s', 'n', 'r', ..], .. var rest] && rest is [] or ["perPixel" or "spanEv" or "atDelivery"])
        || (figure.StartsWith("previews.", StringComparison.Ordinal) && FigureName.Known.Contains(figure.Split('.')[^1]));
}
