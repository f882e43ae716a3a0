using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Previews;

/// <summary>Levels of a made-up body with previews by a given curve: saturation 3.2 EV above a middle grey of 1000 DN.</summary>
internal sealed record MadeUpPreviews
{
    public const double AboveEv = 3.2;
    public const double BelowEv = 5.5;
    private const double GreyDn = 1000;
    private const double BlackDn = 500;

    public required Func<double, double> Curve { get; init; }

    public double FirstEv { get; init; } = -9;

    public double LastEv { get; init; } = 4;

    public double StepEv { get; init; } = 1.0 / 3;

    public string Look { get; init; } = "neutral";

    /// <summary>What red and blue are ahead of green, in EV.</summary>
    public (double R, double B) Cast { get; init; }

    /// <summary>By what a frame's curve is moved, in EV, by its running number.</summary>
    public Func<int, double> Adapts { get; init; } = _ => 0;

    public int FramesPerLevel { get; init; } = 1;

    /// <summary>By how much a frame of a level has more light than the level, in EV.</summary>
    public Func<int, double> Flickers { get; init; } = _ => 0;

    /// <summary>Whether medians are whole codes; else they are interpolated inside them.</summary>
    public bool Rounds { get; init; } = true;

    public static IReadOnlyList<ChannelProfile> Channels { get; } =
        [.. new[] { "R", "G1", "G2", "B" }.Select(name => new ChannelProfile
        {
            Name = name,
            BlackLevelDn = Figure.Estimate(BlackDn, 0, BlackDn, BlackDn),
            MiddleGreyDn = Figure.Estimate(GreyDn, 1, GreyDn - 2, GreyDn + 2),
            Latitude = new ChannelLatitude { AboveEv = Latitude.AboveEv },
        })];

    public static IsoLatitude Latitude => new()
    {
        AboveEv = Figure.Estimate(AboveEv, 0.004, AboveEv - 0.008, AboveEv + 0.008),
        BelowEv = [new ShadowEnd { Snr = 10, PerPixel = Figure.Estimate(BelowEv, 0.01, BelowEv - 0.02, BelowEv + 0.02) }],
    };

    public IReadOnlyList<LevelRecord> Levels()
    {
        List<LevelRecord> levels = [];
        int frame = 0;
        for (double ev = FirstEv; ev <= LastEv; ev += StepEv)
        {
            double at = ev;
            double seen = Math.Min(ev, AboveEv);
            double mean = BlackDn + (GreyDn * Math.Pow(2, seen));
            levels.Add(new LevelRecord
            {
                Role = "bracket",
                ExposureSeconds = Math.Pow(2, ev),
                Ev = seen,
                Frames = FramesPerLevel,
                PixelsPerChannel = 10_000,
                PreviewCodes = [.. Enumerable.Range(0, FramesPerLevel).Select(i => Codes(at + Flickers(i) + Adapts(frame++), i))],
                Channels = [.. Channels.Select(c => new LevelChannel
                {
                    Name = c.Name,
                    MeanDn = mean,
                    FrameMeansDn = [.. Enumerable.Range(0, FramesPerLevel).Select(i => BlackDn + ((mean - BlackDn) * Math.Pow(2, Flickers(i))))],
                    ClippedFraction = ev > AboveEv ? 1 : 0,
                })],
            });
        }

        return levels;
    }

    private PreviewCodes Codes(double ev, int frame) => new(Look, frame, Rounded(ev + Cast.R), Rounded(ev), Rounded(ev + Cast.B));

    private double Rounded(double ev)
    {
        double code = Math.Clamp(Curve(ev), 0, 255);
        return Rounds ? Math.Round(code) : code;
    }
}
