namespace SensorLab.Reports.Documents;

/// <summary>The words that every figure leans on, for a photographer.</summary>
internal static class GlossaryWords
{
    /// <summary>Terms, each with what it means.</summary>
    public static IReadOnlyList<(string Term, string Words)> Terms { get; } =
    [
        ("EV, stop", "A doubling or halving of the light. Here 0 is middle grey, plus is brighter, minus is darker."),
        ("Middle grey", "The tone at which your own spot meter reads zero."),
        ("Raw code, DN", "The number that the raw file holds for a pixel."),
        ("e⁻, electron", "What a pixel counts: one for every photon that it caught. Raw codes stand for electrons; gain says how many."),
        ("Signal over noise", "How much stronger a tone is than its grain, in short SNR. At 40 a tone is clean, at 10 texture holds, at 4 a shape can be told, at 1 noise is as strong as the picture."),
        ("Temporal noise and fixed pattern", "Grain that changes from frame to frame, and grain that stays the same in every frame. Both together are the total."),
        ("R, G1, G2, B", "The four kinds of pixels under the colour filters. Green may be two: G1 lies beside red in its row, G2 beside blue."),
        ("±", "Half of an interval that holds the true value 19 times in 20. JCGM 100, the guide to the expression of uncertainty, says how it is reckoned."),
        ("At least, at most", "A bound: the frames ended before the figure did."),
        ("Bracket, level", "A row of exposures of the same field; a level is one exposure of it."),
        ("EMVA 1288 R4", "The open standard by which makers of industrial cameras measure sensors. Noise grows with light in a way that tells how many electrons a raw code stands for."),
        ("ISO 12232", "The standard behind the ISO setting. It calls SNR 40 excellent and SNR 10 acceptable, of a finished picture; here the same numbers are asked of one raw pixel."),
        ("ISO 14524", "The standard of tone curves: which code a camera's picture gives to which light."),
        ("DNG 1.7", "The open raw format. Converters take black, white and noise from its tags."),
        ("SensorLab's measurement model", "protocols/measurement-model.md, which comes with the program and has every formula."),
    ];
}
