namespace SensorLab.Profiles.Placement;

/// <summary>Where the first channel saturates under a light, and which; the meter's uncertainty not included.</summary>
/// <param name="AboveEv">EV of green above middle grey; null where no channel's is known.</param>
/// <param name="LimitingChannel">The channel that saturates first; null where it is not known.</param>
internal sealed record BrightEnd(Figure? AboveEv, string? LimitingChannel)
{
    /// <summary>The bright end under the light of the set.</summary>
    public static BrightEnd UnderMeteredLight(IsoProfile iso) => new(iso.Latitude.AboveEv, iso.Latitude.LimitingChannel);

    /// <summary>
    /// The bright end under a measured light: each channel stands at the green tone's EV plus its ratio there, so the
    /// first to saturate is the one with the smallest above − ratio.
    /// </summary>
    /// <remarks>
    /// A channel with a bound below every estimate makes the whole a lower bound; a channel of which nothing is known
    /// makes it an upper bound.
    /// </remarks>
    public static BrightEnd Under(LightRatios light, IsoProfile iso)
    {
        List<(string Name, Figure? Above)> ends =
            [.. iso.Channels.Select(c => (c.Name, light.ChannelEv.TryGetValue(c.Name, out double ratio) ? c.Latitude.AboveEv?.Shifted(-ratio) : null))];
        bool isComplete = ends.TrueForAll(e => (e.Above?.Value ?? e.Above?.AtLeast) is not null);
        (string Name, Figure? Above)[] known = [.. ends.Where(e => e.Above is not null).OrderBy(e => e.Above!.Value ?? e.Above.AtLeast ?? e.Above.AtMost)];
        if (isComplete)
        {
            return known.Length > 0 ? new BrightEnd(known[0].Above, known[0].Above!.Value is null ? null : known[0].Name) : new BrightEnd(null, null);
        }

        double? atMost = known.Min(e => e.Above!.Value ?? e.Above.AtMost);
        return new BrightEnd(atMost is { } bound ? Figure.UpperBound(bound) : null, null);
    }

    /// <summary>
    /// What holds under any light: green may not pass its own saturation, whatever red and blue do. Null for a
    /// monochrome sensor, which has no ratios, and where green's saturation is not known.
    /// </summary>
    public static Figure? UnderAnyLight(IsoProfile iso)
    {
        double? atMost = iso.Channels
            .Where(c => ChannelName.IsGreen(c.Name))
            .Min(c => c.Latitude.AboveEv?.Value ?? c.Latitude.AboveEv?.AtMost);
        return atMost is { } bound ? Figure.UpperBound(bound) : null;
    }
}
