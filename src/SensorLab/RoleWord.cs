using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab;

/// <summary>Roles as people write them: in any case of letters, in the singular or the plural.</summary>
internal static class RoleWord
{
    /// <summary>What frames.csv calls a frame that does not belong to the set.</summary>
    public const string None = "none";

    private static readonly Dictionary<string, FrameRole> Words = new(StringComparer.OrdinalIgnoreCase)
    {
        [RoleName.Dark] = FrameRole.Dark,
        ["darks"] = FrameRole.Dark,
        [RoleName.Metered] = FrameRole.Metered,
        [RoleName.Bracket] = FrameRole.Bracket,
        ["brackets"] = FrameRole.Bracket,
        [RoleName.Light] = FrameRole.Light,
        ["lights"] = FrameRole.Light,
    };

    /// <summary>The words that the contract has.</summary>
    public static IReadOnlyList<string> Proper => RoleName.InOrder;

    /// <summary>The role that a word names; null where it names none.</summary>
    public static FrameRole? Read(string word) => Words.TryGetValue(word, out FrameRole role) ? role : null;

    /// <summary>The contract's word for a role.</summary>
    public static string Of(FrameRole role) => Proper[(int)role];
}
