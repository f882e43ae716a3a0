using SensorLab.Profiles;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Tables;

/// <summary>The table of what uncertainties are made of.</summary>
internal static class BudgetTables
{
    /// <summary>One row a part of the bright end and of the shadow end at SNR 10 of each ISO.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static ReportTable Of(SensorProfile profile) => new(
        "budget",
        "What the ± of both ends is made of, in EV: halves of 95 % intervals, which add in quadrature",
        [
            new("iso", "ISO", ColumnKind.Number),
            new("end", "End", ColumnKind.Words),
            new("source", "Part", ColumnKind.Words),
            new("half95Ev", "± (EV)", ColumnKind.Number),
            new("from", "Told by", ColumnKind.Words),
        ],
        [
            .. from iso in profile.IsoProfiles.OrderBy(i => i.Iso)
               from end in new[] { ("bright end", iso.Latitude.AboveEv), ("shadow end, SNR 10", ProfileReview.ShadowEndOf(iso)) }
               where end.Item2?.Budget is not null
               from row in BudgetRow.Of(end.Item2!.Budget!)
               select (IReadOnlyList<TableCell>)
               [
                   TableCell.Whole(iso.Iso),
                   TableCell.Words(end.Item1),
                   TableCell.Words(row.Source),
                   TableCell.Number(row.HalfEv, "0.000"),
                   TableCell.Words(row.Origin),
               ],
        ]);
}
