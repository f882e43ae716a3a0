using System.Globalization;

namespace SensorLab.Reports.Tables;

/// <summary>The figures of a sensor profile in words.</summary>
internal static class FigureDefinitions
{
    private const string Emva = "EMVA 1288 R4 Linear";
    private const string Own = "SensorLab's measurement model";

    public static FigureDefinition Above { get; } = new("aboveEv", "Bright end", "EV from grey", "From middle grey up to where the first channel's mean no longer rises.", $"Saturation as in {Emva}, saturation capacity");

    public static FigureDefinition FirstClip { get; } = new("firstClipEv", "First clip", "EV from grey", "From middle grey up to where the first 0.1 % of pixels clip: texture's peaks go first.", Own);

    public static FigureDefinition PreviewClip { get; } = new("previewClipEv", "Preview's end", "EV from grey", "From middle grey up to where the camera's own preview clips in any channel.", "Tone curve as in ISO 14524, opto-electronic conversion function");

    public static FigureDefinition PreviewShadow { get; } = new("previewShadowEndEv", "Preview's shadow end", "EV", "The EV at which the preview's shadows close.", "ISO 14524, opto-electronic conversion function");

    public static FigureDefinition HiddenHeadroom { get; } = new("hiddenHeadroomEv", "Hidden headroom", "EV", "What the raw file holds above the preview's clip.", Own);

    public static FigureDefinition HighlightWarning { get; } = new("highlightWarningPercent", "Highlight warning", "%", "The percentage at which a highlight warning appears at the brightest textured placement.", Own);

    public static FigureDefinition Span { get; } = new("spanEv", "Span", "EV", "From shadow end to saturation; needs no meter.", Own);

    public static FigureDefinition BandsEnd { get; } = new("bandsEndEv", "Bands show", "EV from grey", "How far below middle grey bands become visible before the SNR falls to the criterion.", Own);

    public static FigureDefinition Snr { get; } = new("snr", "SNR", string.Empty, "Mean signal over noise of one pixel; total with fixed pattern, temporal without.", $"{Emva}, SNR");

    public static FigureDefinition Variance { get; } = new("temporalVarianceDn2", "Temporal variance", "DN²", "Variance of a pixel from frame to frame: read noise, rounding to codes, and light's own noise, which grows with the signal.", $"{Emva}, photon transfer method");

    public static FigureDefinition FixedPattern { get; } = new("fixedPatternDn", "Fixed pattern", "DN", "What differs from pixel to pixel in every frame alike, split into pixel, row and column parts.", $"{Emva}, spatial non-uniformity");

    public static FigureDefinition Linearity { get; } = new("linearityErrorPercent", "Linearity error, mean", "%", "Mean distance of the levels between 5 % and 95 % of saturation from a straight line.", $"{Emva}, linearity error");

    public static FigureDefinition DeclaredBlack { get; } = new("declaredBlackDn", "Declared black", "DN", "The black level that the files state; converters believe it.", "DNG 1.7, BlackLevel");

    public static FigureDefinition DeclaredWhite { get; } = new("declaredWhiteDn", "Declared white", "DN", "The white level that the files state; converters believe it.", "DNG 1.7, WhiteLevel");

    public static FigureDefinition NoiseScale { get; } = new("dngNoiseScale", "Noise profile, scale", string.Empty, "Signal-dependent part of the noise as converters take it.", "DNG 1.7, NoiseProfile");

    public static FigureDefinition NoiseOffset { get; } = new("dngNoiseOffset", "Noise profile, offset", string.Empty, "Signal-independent part of the noise as converters take it.", "DNG 1.7, NoiseProfile");

    /// <summary>Every figure, in the order in which a reader meets it.</summary>
    public static IReadOnlyList<FigureDefinition> All =>
    [
        Above, FirstClip, .. new double[] { 40, 20, 10, 4, 1 }.Select(Below), AtDelivery(10) with { Name = "At delivery" }, Span, BandsEnd,
        PreviewClip, PreviewShadow, HiddenHeadroom, HighlightWarning, Snr, Variance, FixedPattern, .. OfChannel, DeclaredBlack, DeclaredWhite, NoiseScale, NoiseOffset,
    ];

    /// <summary>The figures of a channel, in the order in which they are read.</summary>
    public static IReadOnlyList<FigureDefinition> OfChannel { get; } =
    [
        new("blackLevelDn", "Black level", "DN", "The raw value of no light: the mean of the dark frames.", $"{Emva}, dark signal"),
        new("gainElectronPerDn", "Gain", "e⁻/DN", "Electrons that a raw code stands for: one over the slope of variance against mean.", $"{Emva}, photon transfer method"),
        new("readNoiseElectron", "Read noise", "e⁻", "Noise of a pixel without light, rounding to codes taken off.", $"{Emva}, temporal dark noise"),
        new("readNoiseDn", "Read noise", "DN", "The same in raw codes.", $"{Emva}, temporal dark noise"),
        new("saturationDn", "Saturation", "DN", "The signal above black that more light no longer raises.", $"{Emva}, saturation capacity"),
        new("saturationElectron", "Saturation", "e⁻", "The same in electrons.", $"{Emva}, saturation capacity"),
        new("firstClipDn", "First clip", "DN", "The mean signal above black at which the first 0.1 % of pixels clip.", Own),
        new("prnuPercent", "PRNU", "%", "How much pixels differ in their response to light.", $"{Emva}, spatial non-uniformity"),
        new("dsnuElectron", "DSNU", "e⁻", "How much pixels differ without light.", $"{Emva}, spatial non-uniformity"),
        new("rowNoiseElectron", "Row noise", "e⁻", "The part of the read noise that pixels of a row share; it differs from frame to frame.", $"{Emva}, row and column parts"),
        new("columnNoiseElectron", "Column noise", "e⁻", "The part of the read noise that pixels of a column share.", $"{Emva}, row and column parts"),
        new("dsnuRowElectron", "DSNU, row part", "e⁻", "The part of DSNU that pixels of a row share.", $"{Emva}, row and column parts"),
        new("dsnuColumnElectron", "DSNU, column part", "e⁻", "The part of DSNU that pixels of a column share.", $"{Emva}, row and column parts"),
        new("prnuRowPercent", "PRNU, row part", "%", "The part of PRNU that pixels of a row share.", $"{Emva}, row and column parts"),
        new("prnuColumnPercent", "PRNU, column part", "%", "The part of PRNU that pixels of a column share.", $"{Emva}, row and column parts"),
        Linearity,
        new("linearityLargestPercent", "Linearity error, largest", "%", "The furthest of these levels.", $"{Emva}, linearity error"),
        new("compressionPercent", "Compression", "%", "What the signal lacks at saturation where the response bends; taken out of gain, electrons and latitude. None where it is straight as far as could be told.", Own),
        new("middleGreyDn", "Middle grey", "DN", "The signal above black at which the spot meter reads zero.", Own),
    ];

    /// <summary>The shadow end at a criterion.</summary>
    /// <param name="snr">The criterion.</param>
    public static FigureDefinition Below(double snr)
    {
        string number = snr.ToString("0.##", CultureInfo.InvariantCulture);
        string clause = snr switch
        {
            40 or 10 => "The same number as in ISO 12232, asked of one raw pixel",
            1 => $"{Emva}, absolute sensitivity threshold",
            _ => Own,
        };
        return new($"belowEv.snr{number}.perPixel", $"Shadow end, SNR {number}", "EV from grey", $"From middle grey down to where the total SNR of one pixel falls to {number}.", clause);
    }

    /// <summary>The shadow end at the delivery size.</summary>
    /// <param name="snr">The criterion.</param>
    public static FigureDefinition AtDelivery(double snr)
    {
        string number = snr.ToString("0.##", CultureInfo.InvariantCulture);
        return new($"belowEv.snr{number}.atDelivery", $"At delivery, SNR {number}", "EV from grey", "The same at the size that pictures are delivered at, for noise that is white from pixel to pixel.", Own);
    }
}
