using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Tables;

/// <summary>The tables of the channels' figures.</summary>
internal static class ChannelTables
{
    /// <summary>One row an ISO and channel, a column a figure.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static ReportTable All(SensorProfile profile) => new(
        "channels",
        "Every figure of every channel",
        [
            new("iso", "ISO", ColumnKind.Number),
            new("channel", "Channel", ColumnKind.Word),
            .. FigureDefinitions.OfChannel.Select(TableColumn.Of),
            TableColumn.Of(FigureDefinitions.Above),
            TableColumn.Of(FigureDefinitions.FirstClip),
            new("declaredBlackDn", FigureDefinitions.DeclaredBlack.Title, ColumnKind.Number),
            new("declaredWhiteDn", FigureDefinitions.DeclaredWhite.Title, ColumnKind.Number),
            new("dngNoiseScale", FigureDefinitions.NoiseScale.Title, ColumnKind.Number),
            new("dngNoiseOffset", FigureDefinitions.NoiseOffset.Title, ColumnKind.Number),
        ],
        [
            .. from iso in profile.IsoProfiles.OrderBy(i => i.Iso)
               from channel in iso.Channels
               select (IReadOnlyList<TableCell>)
               [
                   TableCell.Whole(iso.Iso),
                   TableCell.Words(channel.Name),
                   .. FigureDefinitions.OfChannel.Select(d => TableCell.Of(FigureOf(channel, d.Key))),
                   TableCell.Stops(channel.Latitude.AboveEv),
                   TableCell.Stops(channel.Latitude.FirstClipEv),
                   .. Plain(channel),
               ],
        ]);

    /// <summary>The figures of an ISO: a row a figure with its definition, a column a channel.</summary>
    /// <param name="iso">The ISO.</param>
    public static ReportTable Of(IsoProfile iso)
    {
        var rows = new List<IReadOnlyList<TableCell>>();
        void Add(FigureDefinition definition, Func<ChannelProfile, TableCell> cellOf) =>
            rows.Add([new TableCell(definition.Title, definition), .. iso.Channels.Select(cellOf)]);

        Add(FigureDefinitions.Above, c => TableCell.Stops(c.Latitude.AboveEv));
        Add(FigureDefinitions.FirstClip, c => TableCell.Stops(c.Latitude.FirstClipEv));
        foreach (double snr in iso.Channels.SelectMany(c => c.Latitude.BelowEv).Select(e => e.Snr).Distinct().OrderDescending())
        {
            Add(FigureDefinitions.Below(snr), c => TableCell.BelowAlone(c.Latitude.BelowEv.FirstOrDefault(e => e.Snr == snr)?.PerPixel));
        }

        foreach (FigureDefinition definition in FigureDefinitions.OfChannel)
        {
            Add(definition, c => TableCell.Of(FigureOf(c, definition.Key)));
        }

        Add(FigureDefinitions.DeclaredBlack, c => Plain(c)[0]);
        Add(FigureDefinitions.DeclaredWhite, c => Plain(c)[1]);
        Add(FigureDefinitions.NoiseScale, c => Plain(c)[2]);
        Add(FigureDefinitions.NoiseOffset, c => Plain(c)[3]);
        return new ReportTable($"channels-iso-{iso.Iso}", $"Every figure of ISO {iso.Iso}, channel by channel; ± is half the 95 % interval of the sensor's noise in this set alone",
            [new("figure", "Figure", ColumnKind.Words), .. iso.Channels.Select(c => new TableColumn(c.Name, ForeignText.OneLine(c.Name), ColumnKind.Figure))], rows);
    }

    /// <summary>Black and white as declared and as measured.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static ReportTable Declared(SensorProfile profile) => new(
        "declared-levels",
        "Black and white as the files declare them and as measured, in DN",
        [
            new("iso", "ISO", ColumnKind.Number),
            new("channel", "Channel", ColumnKind.Word),
            new("declaredBlackDn", "Declared black (DN)", ColumnKind.Number) { Definition = FigureDefinitions.DeclaredBlack },
            TableColumn.Of(FigureDefinitions.OfChannel[0]),
            new("blackOffDn", "Declared less measured (DN)", ColumnKind.Number),
            new("declaredWhiteDn", "Declared white (DN)", ColumnKind.Number) { Definition = FigureDefinitions.DeclaredWhite },
            TableColumn.Of(FigureDefinitions.OfChannel.First(d => d.Key == "saturationDn")),
            new("whiteOffDn", "Declared less measured (DN)", ColumnKind.Number),
        ],
        [
            .. DeclaredLevel.Of(profile).Select(level => (IReadOnlyList<TableCell>)
            [
                TableCell.Whole(level.Iso),
                TableCell.Words(level.Channel),
                TableCell.Number(level.DeclaredBlackDn, "0.##"),
                TableCell.Of(level.BlackDn),
                TableCell.Number(level.BlackOffDn, "0.00"),
                TableCell.Number(level.DeclaredWhiteDn, "0.##"),
                TableCell.Of(level.SaturationDn),
                TableCell.Number(level.WhiteOffDn, "0.0"),
            ]),
        ]);

    /// <summary>A channel's figure by its name in the profile.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="key">The figure's name.</param>
    public static Figure? FigureOf(ChannelProfile channel, string key) => key switch
    {
        "blackLevelDn" => channel.BlackLevelDn,
        "gainElectronPerDn" => channel.GainElectronPerDn,
        "readNoiseElectron" => channel.ReadNoiseElectron,
        "readNoiseDn" => channel.ReadNoiseDn,
        "saturationDn" => channel.SaturationDn,
        "saturationElectron" => channel.SaturationElectron,
        "firstClipDn" => channel.FirstClipDn,
        "prnuPercent" => channel.PrnuPercent,
        "dsnuElectron" => channel.DsnuElectron,
        "rowNoiseElectron" => channel.RowNoiseElectron,
        "columnNoiseElectron" => channel.ColumnNoiseElectron,
        "dsnuRowElectron" => channel.DsnuRowElectron,
        "dsnuColumnElectron" => channel.DsnuColumnElectron,
        "prnuRowPercent" => channel.PrnuRowPercent,
        "prnuColumnPercent" => channel.PrnuColumnPercent,
        "linearityErrorPercent" => channel.LinearityErrorPercent,
        "linearityLargestPercent" => channel.LinearityLargestPercent,
        "compressionPercent" => channel.CompressionPercent,
        "middleGreyDn" => channel.MiddleGreyDn,
        _ => throw new ArgumentOutOfRangeException(nameof(key), key, "A channel has no such figure."),
    };

    private static TableCell[] Plain(ChannelProfile channel) =>
    [
        TableCell.Number(channel.DeclaredBlackDn, "0.##"),
        TableCell.Number(channel.DeclaredWhiteDn, "0.##"),
        TableCell.Number(channel.DngNoiseProfile?.Scale, "0.000E+0"),
        TableCell.Number(channel.DngNoiseProfile?.Offset, "0.000E+0"),
    ];
}
