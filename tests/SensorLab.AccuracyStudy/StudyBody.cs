using SensorLab.Simulation.Bodies;

namespace SensorLab.AccuracyStudy;

/// <summary>A body of the study: one ISO of a virtual body whose fixed pattern is drawn anew for each set.</summary>
/// <param name="Name">What the table calls it.</param>
/// <param name="Body">Its properties.</param>
/// <param name="DarkFrames">Dark frames of a set.</param>
internal sealed record StudyBody(string Name, VirtualBody Body, int DarkFrames = 4)
{
    private const int FewSidePixels = 64;
    private const string SixBySix = "6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG";
    private const string Quad = "4x4:RRGGRRGGGGBBGGBB";

    public VirtualIso Setting => Body.IsoSettings[0];

    public int MeteredFrames { get; init; } = 4;

    /// <summary>Standard deviation of the black level from frame to frame, in DN.</summary>
    public double BlackDriftDn { get; init; }

    /// <summary>Exposure time of the second half of the dark frames in seconds; 0 where all are of one time.</summary>
    public double LongDarkSeconds { get; init; }

    /// <summary>Sets shot for each one asked for: a body of one channel, or one that alone has a figure, needs more for as many estimates.</summary>
    public double SetsFactor { get; init; } = 1;

    /// <summary>All bodies, part by part.</summary>
    public static IReadOnlyList<StudyBody> All => [.. Parts.SelectMany(p => p.Bodies)];

    /// <summary>The parts of the study; each has goals of its own to meet.</summary>
    public static IReadOnlyList<(string Name, IReadOnlyList<StudyBody> Bodies)> Parts { get; } =
    [
        ("All bodies", MainBodies()),
        ("Few frames, few lines", FewBodies()),
        ("Long dark frames", LongDarkBodies()),
        ("Coarse or cut off, shared noise", SharedNoiseBodies()),
        ("Large patterns of filters", LargePatternBodies()),
        ("Frames of a real size", RealSizeBodies()),
    ];

    /// <summary>Bodies that cover converters of 12, 14 and 16 bits, read noise of 0.24 to 12 DN, and what makes estimators err.</summary>
    private static StudyBody[] MainBodies() =>
    [
        new("14 bits, full well below the converter", Bayer(14, 2.6, 3.1, 512.25, 40_000)),
        new("14 bits, converter below the full well", Bayer(14, 0.65, 1.6, 600, 40_000)),
        new("14 bits, second conversion gain", Bayer(14, 0.35, 1.1, 512.5, 5_000)),
        new("12 bits, 0.24 DN, black on a code", Coarse(100), 8),
        new("12 bits, 0.24 DN, black a quarter off", Coarse(100.25), 8),
        new("12 bits, 0.24 DN, black half-way", Coarse(100.5), 8),
        new("16 bits, 12 DN", Bayer(16, 0.4, 4.8, 1024.5, 24_000)),
        new("12 bits, monochrome, strong PRNU", Bayer(12, 4, 8, 64.25, 20_000) with { ColourFilterArray = "monochrome", WidthPixels = StudySet.Width / 2, HeightPixels = StudySet.Height / 2, PrnuPercent = 1.5, DsnuElectron = 4 }) { SetsFactor = 4 },
        new("14 bits, row noise, banded pattern", Banded()) { SetsFactor = 4 },
        new("12 bits, dark values cut off at code 0", CutOff()),
        new("14 bits, digital push of four", Pushed(4)),
        new("14 bits, response bent by 4 %", Bayer(14, 0.65, 2, 600.25, 14_000) with { CompressionPercent = 4 }) { SetsFactor = 4 },
        new("14 bits, hardly any pattern", Bayer(14, 2.6, 3.1, 512.25, 40_000) with { PrnuPercent = 0.02, DsnuElectron = 0.02 }) { SetsFactor = 2 },
        new("14 bits, pattern near its uncertainty", Bayer(14, 2.6, 3.1, 512.25, 40_000) with { PrnuPercent = 0.1, DsnuElectron = 0.3 }) { SetsFactor = 2 },
    ];

    /// <summary>
    /// Read noise below half a code step on a million photosites a channel: blocks have 64 × 64 of them, and what block
    /// means cost is 3 % of the degrees of freedom and not 6. A real frame has more photosites still, in blocks of that size.
    /// </summary>
    private static StudyBody[] RealSizeBodies() =>
    [
        .. new[] { ("on a code", 100.0), ("a quarter off", 100.25), ("half-way", 100.5) }.Select(b =>
            new StudyBody($"Real size: 12 bits, 0.24 DN, black {b.Item1}", Coarse(b.Item2) with { WidthPixels = 2304, HeightPixels = 1800 }, 8) { SetsFactor = 0.5 }),
    ];

    /// <summary>Bodies whose uncertainties rest on few degrees of freedom: 32 × 32 photosites a channel, two to four frames.</summary>
    private static StudyBody[] FewBodies() =>
    [
        Few("two frames a level", Bayer(14, 2.6, 3.1, 512.25, 40_000), 2, 0),
        Few("two frames a level, row noise, banded pattern", Banded(), 2, 0),
        Few("black drifts by 3 DN, two dark frames", Bayer(14, 2.6, 3.1, 512.25, 40_000), 2, 3),
        Few("black drifts by 1 DN, three dark frames", Bayer(14, 1.3, 2, 512.25, 40_000), 3, 1),
        Few("black drifts by 0.5 DN, four dark frames", Bayer(12, 4, 8, 64.25, 20_000), 4, 0.5),
    ];

    /// <summary>Bodies with dark frames of two exposure times, whose dark signal stands out from their noise by nothing, by what can just not be told, or by far.</summary>
    private static StudyBody[] LongDarkBodies() =>
    [
        LongDark("no dark current", Bayer(14, 0.65, 1.6, 600, 40_000), 0),
        LongDark("dark signal of one and a half deviations", Bayer(14, 0.65, 1.6, 600, 40_000), 0.0055),
        LongDark("row noise, no dark current", Banded(), 0),
        LongDark("row noise, dark signal of one and a half deviations", Banded(), 0.07),
        LongDark("row noise, dark signal of 20 e⁻", Banded(), 10),
        LongDark("12 bits, 0.24 DN, no dark current", Coarse(100.25), 0),
        LongDark("12 bits, 0.24 DN, dark signal of one and a half deviations", Coarse(100.25), 0.003),
        LongDark("12 bits, 0.24 DN, dark signal of 2 e⁻", Coarse(100.25), 1),
        LongDark("12 bits, dark values cut off, dark signal of 2 e⁻", CutOff(), 1),
    ];

    /// <summary>Bodies whose dark values are fitted code by code while rows, columns or frames share noise or pattern, and one just above half a step.</summary>
    private static StudyBody[] SharedNoiseBodies() =>
    [
        new("12 bits, 0.24 DN, row noise", Coarse(100.25) with { RowNoiseElectron = 0.6 }, 8),
        new("12 bits, 0.24 DN, black half-way, column noise", Coarse(100.5) with { ColumnNoiseElectron = 0.6 }, 8),
        new("12 bits, 0.24 DN, banded pattern", Coarse(100.25) with { DsnuRowElectron = 0.5, DsnuColumnElectron = 0.5 }, 8),
        new("12 bits, 0.24 DN, black drifts by 0.05 DN", Coarse(100.25), 8) { BlackDriftDn = 0.05 },
        new("12 bits, 0.24 DN, strong pattern", Coarse(100.25) with { DsnuElectron = 3 }, 8),
        new("12 bits, 0.55 DN, black half-way", Bayer(12, 6, 3.3, 100.5, 20_000), 8),
        new("12 bits, dark values cut off, row noise", CutOff() with { RowNoiseElectron = 1 }),
        new("12 bits, dark values cut off, banded pattern", CutOff() with { DsnuRowElectron = 0.8, DsnuColumnElectron = 0.8 }),
    ];

    /// <summary>Filters that repeat over 6 × 6 photosites, some lines of which hold more of a channel than others, and of which 2 × 2 photosites share one.</summary>
    private static StudyBody[] LargePatternBodies() =>
    [
        .. new[] { ("6 × 6", SixBySix), ("4 × 4 quad", Quad) }.SelectMany(pattern => new StudyBody[]
        {
            new($"{pattern.Item1}: full well below the converter", Bayer(14, 2.6, 3.1, 512.25, 40_000) with { ColourFilterArray = pattern.Item2 }),
            new($"{pattern.Item1}: row noise, banded pattern", Banded() with { ColourFilterArray = pattern.Item2 }) { SetsFactor = 2 },
            new($"{pattern.Item1}: 12 bits, 0.24 DN, black a quarter off", Coarse(100.25) with { ColourFilterArray = pattern.Item2 }, 8),
            new($"{pattern.Item1}: 12 bits, dark values cut off", CutOff() with { ColourFilterArray = pattern.Item2 }),
        }),
    ];

    private static StudyBody LongDark(string name, VirtualBody body, double electronPerSecond) =>
        new($"Long dark frames: {name}", body with { DarkCurrentElectronPerSecond = electronPerSecond }, 8) { LongDarkSeconds = 2, SetsFactor = 2 };

    private static StudyBody Few(string name, VirtualBody body, int darkFrames, double blackDriftDn) =>
        new($"Few: {name}", body with { WidthPixels = FewSidePixels, HeightPixels = FewSidePixels }, darkFrames) { MeteredFrames = 2, BlackDriftDn = blackDriftDn, SetsFactor = 4 };

    private static VirtualBody Banded() => Bayer(14, 2, 4, 512.25, 40_000) with
    {
        RowNoiseElectron = 1.5,
        DsnuRowElectron = 0.8,
        DsnuColumnElectron = 0.8,
        PrnuRowPercent = 0.2,
        PrnuColumnPercent = 0.3,
    };

    /// <summary>Codes of a converter that counts 0.8 e⁻ a code, multiplied: every fourth code is met.</summary>
    private static VirtualBody Pushed(double factor)
    {
        VirtualBody body = Bayer(14, 0.2, 1.3, 512, 40_000);
        return body with { IsoSettings = [body.IsoSettings[0] with { DigitalFactor = factor }] };
    }

    /// <summary>
    /// Below half a code step: 160 × 120 photosites a channel and eight dark frames, so that half-way between two codes a
    /// third one is met some seven times; below that no estimator's error is near its bound.
    /// </summary>
    private static VirtualBody Coarse(double black) => Bayer(12, 6, 1.44, black, 30_000) with { WidthPixels = 320, HeightPixels = 240 };

    private static VirtualBody CutOff() => Bayer(12, 2, 3, 1.2, 20_000) with { DsnuElectron = 1 };

    private static VirtualBody Bayer(int bits, double gain, double readNoise, double black, double fullWell) => new()
    {
        BitDepth = bits,
        WidthPixels = StudySet.Width,
        HeightPixels = StudySet.Height,
        BlackLevelDn = black,
        FullWellElectron = fullWell,
        PrnuPercent = 0.6,
        DsnuElectron = 0.2 * readNoise,
        IsoSettings = [new VirtualIso { Iso = 100, GainElectronPerDn = gain, ReadNoiseElectron = readNoise, MiddleGreyElectron = 1000 }],
    };
}
