namespace SensorLab.Intakes;

/// <summary>The frames of one role at one ISO.</summary>
/// <param name="Role">"dark", "metered", "bracket" or "light".</param>
/// <param name="Frames">Frames that can serve.</param>
/// <param name="Exposures">Different exposure times among them.</param>
/// <param name="ShortestSeconds">The shortest exposure time in seconds.</param>
/// <param name="LongestSeconds">The longest exposure time in seconds.</param>
public sealed record IntakeRole(string Role, int Frames, int Exposures, double ShortestSeconds, double LongestSeconds);
