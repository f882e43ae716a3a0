namespace SensorLab.Profiles.Placement;

/// <summary>What a sensor profile says to a <see cref="PlacementQuestion"/>; figures include the meter, bounds do not.</summary>
public sealed record PlacementAnswer
{
    /// <summary>The ISO.</summary>
    public required int Iso { get; init; }

    /// <summary>The tone, in EV from middle grey.</summary>
    public required double ToneEv { get; init; }

    /// <summary>EV from the tone to saturation.</summary>
    public Figure? HeadroomEv { get; init; }

    /// <summary>Whether the tone clips; null where a bound leaves it open.</summary>
    public bool? Clips { get; init; }

    /// <summary>Total SNR of one pixel, greens pooled; absent when the tone clips.</summary>
    public Figure? Snr { get; init; }

    /// <summary>Where a bright textured surface may sit at most.</summary>
    public Figure? BrightestTexturedEv { get; init; }

    /// <summary>Where shadows still hold texture: SNR 10, signed.</summary>
    public Figure? DarkestTexturedEv { get; init; }

    /// <summary>Whether the scene fits; null without a scene, and where a bound leaves it open.</summary>
    public bool? SceneFits { get; init; }

    /// <summary>What exposing to the clipping point would gain and cost: the scene's ends where given, else the tone and the darkest textured shadow.</summary>
    public required ClipExposure ExposeToClip { get; init; }

    /// <summary>Where shadows are still clean: SNR 20, signed.</summary>
    public Figure? DarkestCleanEv { get; init; }

    /// <summary>Where shadows still hold tone: SNR 4, signed.</summary>
    public Figure? DarkestToneEv { get; init; }

    /// <summary>The scene's room and the exposure to set; null without a scene.</summary>
    public SceneFit? Scene { get; init; }

    /// <summary>The light; null for the one under which the set was shot.</summary>
    public string? Light { get; init; }

    /// <summary>The channel that saturates first under the light.</summary>
    public string? LimitingChannel { get; init; }

    /// <summary>Under a light that was not measured, the most that the headroom can be; absent for a monochrome sensor.</summary>
    public Figure? HeadroomAnyLightEv { get; init; }

    /// <summary>What the camera's preview makes of the tone, the most truthful look first; empty where none was measured.</summary>
    public IReadOnlyList<PreviewPretence> Previews { get; init; } = [];

    /// <summary>What the answer leaves out or rests on.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>Answers a question.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="question">The question.</param>
    /// <exception cref="IsoUnmeasuredException">The ISO was not measured; its neighbours are named.</exception>
    /// <exception cref="ArgumentException">The profile has no light of that name.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, the guard negative, or the scene upside down.</exception>
    public static PlacementAnswer Of(SensorProfile profile, PlacementQuestion question)
    {
        if (!double.IsFinite(question.ToneEv))
        {
            throw new ArgumentOutOfRangeException(nameof(question), question.ToneEv, "A tone's EV is finite.");
        }

        EvAxis axis = EvAxis.Of(profile, question.Iso, question.Light);
        Figure? darkest = axis.DarkestEv(EvAxis.TextureSnr);
        SceneFit? fit = question.Scene is { } scene ? axis.Fit(scene.LowEv, scene.HighEv, question.GuardEv) : null;
        return new PlacementAnswer
        {
            Iso = question.Iso,
            ToneEv = question.ToneEv,
            HeadroomEv = axis.HeadroomEv(question.ToneEv),
            Clips = axis.Clips(question.ToneEv),
            Snr = axis.SnrAt(question.ToneEv),
            BrightestTexturedEv = axis.BrightestTexturedEv(question.GuardEv),
            DarkestTexturedEv = darkest,
            SceneFits = fit?.Fits,
            ExposeToClip = axis.ExposeToClip(question.Scene?.HighEv ?? question.ToneEv, question.Scene?.LowEv ?? darkest?.Value ?? darkest?.AtMost),
            DarkestCleanEv = axis.DarkestEv(EvAxis.CleanSnr),
            DarkestToneEv = axis.DarkestEv(EvAxis.ToneSnr),
            Scene = fit,
            Light = question.Light,
            LimitingChannel = axis.LimitingChannel,
            HeadroomAnyLightEv = axis.AboveAnyLightEv?.Shifted(-question.ToneEv),
            Previews = PreviewPretence.Of(axis, profile.IsoProfiles.First(p => p.Iso == question.Iso), question.ToneEv),
            Cautions = PlacementCautions.Of(profile, axis, question, darkest),
        };
    }
}
