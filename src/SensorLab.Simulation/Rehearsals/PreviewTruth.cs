namespace SensorLab.Simulation.Rehearsals;

/// <summary>What is true of the previews of one look.</summary>
/// <param name="Look">The look's name.</param>
/// <param name="ClipEv">EV from middle grey as metered at which the preview reaches code 255.</param>
/// <param name="ShadowEndEv">EV at which it reaches code 0.</param>
/// <param name="HiddenHeadroomEv">What the raw file holds above the preview's clip.</param>
/// <param name="MiddleGreyCode">The code of middle grey as metered, not rounded.</param>
/// <param name="ToneCurve">The curve in half stops around middle grey, from 0 to 255.</param>
public sealed record PreviewTruth(
    string Look,
    double ClipEv,
    double ShadowEndEv,
    double HiddenHeadroomEv,
    double MiddleGreyCode,
    IReadOnlyList<ToneTruth> ToneCurve);
