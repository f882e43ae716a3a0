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

    /// <summary>The body in a room that is warmer: gain 0.03 %, read noise 0.08 %, full well 0.02 % and black 0.006 DN a kelvin.</summary>
    /// <param name="kelvin">By how much it is warmer than where its own values hold.</param>
    public StudyBody At(double kelvin) => With(i => i with
    {
        GainElectronPerDn = i.GainElectronPerDn * (1 + (0.0003 * kelvin)),
        ReadNoiseElectron = i.ReadNoiseElectron * (1 + (0.0008 * kelvin)),
        SaturationDn = i.SaturationDn * (1 - (0.0002 * kelvin)),
        BlackDn = i.BlackDn + (0.006 * kelvin),
    });

    /// <summary>Another body of the model: every figure a little off.</summary>
    /// <param name="random">Draws it.</param>
    public static StudyBody Drawn(Random random)
    {
        double Off(double share) => 1 + (share * ((2 * random.NextDouble()) - 1));
        return Unchanged.With(i => i with
        {
            GainElectronPerDn = i.GainElectronPerDn * Off(0.1),
            ReadNoiseElectron = i.ReadNoiseElectron * Off(0.2),
            SaturationDn = i.SaturationDn * Off(0.02),
            BlackDn = i.BlackDn * Off(0.01),
            GreyElectron = i.GreyElectron * Off(0.2),
        });
    }
}
