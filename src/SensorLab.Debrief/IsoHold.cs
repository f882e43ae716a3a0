using SensorLab.Profiles;

namespace SensorLab.Debrief;

/// <summary>What a body holds at an ISO, in EV from middle grey; values alone, as marks on a ruler.</summary>
/// <param name="Iso">The ISO.</param>
/// <param name="ClipEv">Where the first channel clips.</param>
/// <param name="TextureEv">Where total SNR of a photosite falls to 10; null where it never is as high.</param>
/// <param name="ToneEv">Where it falls to 4; null where it never is as high.</param>
public sealed record IsoHold(int Iso, double ClipEv, double? TextureEv, double? ToneEv)
{
    /// <summary>What an ISO's profile holds.</summary>
    internal static IsoHold Of(IsoProfile iso) => new(
        iso.Iso,
        (iso.Latitude.AboveEv?.Value ?? iso.Latitude.AboveEv?.AtLeast) ?? double.NaN,
        EndOf(iso, IsoGauge.TextureSnr),
        EndOf(iso, IsoGauge.ToneSnr));

    private static double? EndOf(IsoProfile iso, double snr) =>
        iso.Latitude.BelowEv.FirstOrDefault(b => b.Snr == snr)?.PerPixel is { } end ? -(end.Value ?? end.AtLeast) : null;
}
