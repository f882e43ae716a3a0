using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>What the files declare of a channel's ends, beside what was measured.</summary>
/// <param name="Iso">The ISO.</param>
/// <param name="Channel">R, G1, G2, B or Y.</param>
/// <param name="DeclaredBlackDn">The black level that the files declare; null where they declare none.</param>
/// <param name="BlackDn">The measured black level.</param>
/// <param name="DeclaredWhiteDn">The white level that the files declare; null where they declare none.</param>
/// <param name="SaturationDn">The measured saturation above black.</param>
internal sealed record DeclaredLevel(
    int Iso, string Channel, double? DeclaredBlackDn, Figure? BlackDn, double? DeclaredWhiteDn, Figure? SaturationDn)
{
    /// <summary>Every channel at every ISO of which the files declare something.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static IReadOnlyList<DeclaredLevel> Of(SensorProfile profile) =>
    [
        .. from iso in profile.IsoProfiles.OrderBy(i => i.Iso)
           from channel in iso.Channels
           where channel.DeclaredBlackDn is not null || channel.DeclaredWhiteDn is not null
           select new DeclaredLevel(iso.Iso, channel.Name, channel.DeclaredBlackDn, channel.BlackLevelDn, channel.DeclaredWhiteDn, channel.SaturationDn),
    ];

    /// <summary>Declared less measured black in DN; null where either is missing.</summary>
    public double? BlackOffDn => DeclaredBlackDn - BlackDn?.Value;

    /// <summary>Declared white less the measured saturation as a raw value, black included; null where one is missing.</summary>
    public double? WhiteOffDn => DeclaredWhiteDn - (SaturationDn?.Value + BlackDn?.Value);
}
