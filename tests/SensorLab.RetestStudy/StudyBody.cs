namespace SensorLab.RetestStudy;

/// <summary>The study's body, a Larkmoor LM-2 at three ISOs, and what an update can do to it.</summary>
internal sealed record StudyBody
{
    public const double PrnuFraction = 0.006;
    public const double DsnuElectron = 0.3;

    /// <summary>e⁻ a second at the temperature of the first set.</summary>
    public const double DarkCurrentElectronPerSecond = 0.1;

    /// <summary>Temporal noise that a row shares, in e⁻; part of the read noise.</summary>
    public const double RowNoiseElectron = 0.4;

    public static IReadOnlyList<(string Name, double Sensitivity)> Channels { get; } = [("R", 0.55), ("G1", 1), ("G2", 1), ("B", 0.7)];

    public static StudyBody Unchanged { get; } = new()
    {
        Isos = [.. new[] { 100, 400, 1600 }.Select(iso =>
        {
            double gain = 2.6 * 100 / iso;
            return new StudyIso(iso, gain, Math.Sqrt((1.5 * 1.5) + Math.Pow(1.05 * gain, 2)), 512.25, 15_360, 4700 * 100.0 / iso);
        })],
    };

    public required IReadOnlyList<StudyIso> Isos { get; init; }

    /// <summary>What a pixel takes from its four neighbours together when raw data are smoothed.</summary>
    public double FilterShare { get; init; }

    /// <summary>EV at which the preview clips.</summary>
    public double PreviewClipEv { get; init; } = 2.7;

    public StudyBody With(Func<StudyIso, StudyIso> change) => this with { Isos = [.. Isos.Select(change)] };
}
