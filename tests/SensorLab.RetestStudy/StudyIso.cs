namespace SensorLab.RetestStudy;

/// <summary>One ISO of the study's body, as it truly is.</summary>
/// <param name="Iso">The setting.</param>
/// <param name="GainElectronPerDn">Electrons a code.</param>
/// <param name="ReadNoiseElectron">Read noise of a pixel in e⁻, row noise included.</param>
/// <param name="BlackDn">Black level in DN.</param>
/// <param name="SaturationDn">The plateau above black in DN.</param>
/// <param name="GreyElectron">Electrons of a green pixel where the meter reads zero.</param>
internal sealed record StudyIso(int Iso, double GainElectronPerDn, double ReadNoiseElectron, double BlackDn, double SaturationDn, double GreyElectron);
