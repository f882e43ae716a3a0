using SensorLab.Profiles;

namespace SensorLab.Reports.Tables;

/// <summary>Every table of a report that becomes a file.</summary>
internal static class AllTables
{
    /// <summary>The tables that hold anything, in the order of the report.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="review">What was made of it.</param>
    public static IReadOnlyList<ReportTable> Of(SensorProfile profile, ProfileReview review)
    {
        IsoProfile[] isos = [.. profile.IsoProfiles.OrderBy(i => i.Iso)];
        ReportTable[] all =
        [
            LatitudeTables.Of(profile, review),
            LatitudeTables.ShadowEnds(profile),
            BudgetTables.Of(profile),
            ChannelTables.All(profile),
            ChannelTables.Declared(profile),
            LevelTables.PhotonTransfer(isos),
            LevelTables.Snr(isos),
            LevelTables.Response(isos),
            LevelTables.FixedPattern(isos),
            PreviewTables.Looks(isos),
            PreviewTables.ToneCurves(isos),
            PreviewTables.Lights(profile),
            ProvenanceTables.Findings(profile),
            ProvenanceTables.Frames(profile),
        ];
        return [.. all.Where(table => table.Rows.Count > 0)];
    }
}
