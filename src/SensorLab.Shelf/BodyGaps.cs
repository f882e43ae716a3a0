namespace SensorLab.Shelf;

/// <summary>What a body's newest profile lacks beside the rest of the shelf; nothing is known of what is not on it.</summary>
/// <param name="IsosOfEarlier">ISOs that an earlier profile of the body holds, in the same recording mode.</param>
/// <param name="IsosOfModel">ISOs that newest profiles of other bodies of the model hold, and none of this body.</param>
/// <param name="FirmwaresOfModel">Firmware that other bodies of the model were measured with, this one never, and that came to the shelf after this one's.</param>
public sealed record BodyGaps(IReadOnlyList<int> IsosOfEarlier, IReadOnlyList<int> IsosOfModel, IReadOnlyList<string> FirmwaresOfModel)
{
    /// <summary>The gaps of every body.</summary>
    /// <param name="contents">The shelf.</param>
    /// <returns>By the body's id.</returns>
    public static IReadOnlyDictionary<string, BodyGaps> Of(ShelfContents contents)
    {
        ILookup<string, ShelvedProfile> ofBody = contents.Profiles.ToLookup(p => p.Body.Id);
        var gaps = new Dictionary<string, BodyGaps>(StringComparer.Ordinal);
        foreach (IGrouping<(string?, string?), ShelfBody> model in contents.Bodies.GroupBy(b => (b.Maker, b.Model)))
        {
            // Versions tell no order by themselves: the first time that the model was measured with one does.
            Dictionary<string, DateTimeOffset?> firmwares = model.SelectMany(b => ofBody[b.Id]).Where(p => p.Firmware is not null).GroupBy(p => p.Firmware!).ToDictionary(g => g.Key, g => g.Min(p => p.CreatedUtc));
            int[] isos = [.. model.SelectMany(b => ofBody[b.Id].Last().Isos).Distinct().Order()];
            foreach (ShelfBody body in model)
            {
                ShelvedProfile[] own = [.. ofBody[body.Id]];
                ShelvedProfile newest = own[^1];
                int[] everIsos = [.. own.SelectMany(p => p.Isos).Distinct()];
                gaps[body.Id] = new BodyGaps(
                    [.. own.Where(p => p.Mode == newest.Mode).SelectMany(p => p.Isos).Distinct().Except(newest.Isos).Order()],
                    [.. isos.Except(everIsos)],
                    [
                        .. firmwares.Where(f => own.All(p => p.Firmware != f.Key) && (newest.Firmware is null || f.Value > firmwares[newest.Firmware]))
                            .OrderBy(f => f.Value).Select(f => f.Key),
                    ]);
            }
        }

        return gaps;
    }
}
