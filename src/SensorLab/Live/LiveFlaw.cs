namespace SensorLab.Live;

/// <summary>What is wrong with one frame, told while the camera still stands there.</summary>
/// <param name="Code">The finding's code.</param>
/// <param name="Message">What is wrong, in a sentence.</param>
/// <param name="Remedy">What to do now.</param>
/// <param name="ShootAgain">Whether the frame should be shot again; false for what needs an eye alone.</param>
public sealed record LiveFlaw(string Code, string Message, string Remedy, bool ShootAgain);
