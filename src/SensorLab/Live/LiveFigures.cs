using SensorLab.Profiles;

namespace SensorLab.Live;

/// <summary>What the levels that are whole give so far, by the measuring that a finished set goes through.</summary>
/// <param name="Profile">The profile that these frames give; null where they give none yet.</param>
/// <param name="Findings">What they show; where they give no profile, why.</param>
/// <param name="LevelsMeasured">Levels measured since the folder was opened, those measured again among them.</param>
public sealed record LiveFigures(SensorProfile? Profile, IReadOnlyList<Finding> Findings, int LevelsMeasured);
