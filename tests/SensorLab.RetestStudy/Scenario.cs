using System.Globalization;
using SensorLab.Retest;

namespace SensorLab.RetestStudy;

/// <summary>What goes on between two sets, and what the re-test should say of it.</summary>
internal sealed record Scenario
{
    public required string Name { get; init; }

    public required StudyBody After { get; init; }

    public StudySetting Setting { get; init; } = new();

    /// <summary>Sets of the unchanged body that are shot anew.</summary>
    public int Repeats { get; init; }

    /// <summary>Most often that it may be called changed; null where it should be.</summary>
    public double? MostChanged { get; init; }

    /// <summary>Most often that it may be called equivalent; null where that is no matter.</summary>
    public double? MostEquivalent { get; init; }

    /// <summary>Most often that it may be undecided; null where that is no matter.</summary>
    public double? MostUndecided { get; init; }

    /// <summary>Whether a result names the change for what it is; null where there is none to name.</summary>
    public Func<RetestResult, bool>? IsNamed { get; init; }

    private static StudyBody Body => StudyBody.Unchanged;

    /// <summary>Whether a tenth of the pairs is drawn pixel by pixel, rehearsed and characterised as a user's frames are.</summary>
    public bool WithPixels { get; init; }

    /// <summary>Unchanged, and the four changes that must be found whatever the repeats.</summary>
    private static IReadOnlyList<Scenario> AsSetsCome { get; } =
    [
        NoChange("no change") with { MostUndecided = null },
        Found("black + 4 DN", Body.With(i => i with { BlackDn = i.BlackDn + 4 }), "blackLevelDn"),
        Found("read noise + 10 %", Body.With(i => i with { ReadNoiseElectron = 1.1 * i.ReadNoiseElectron }), "readNoiseElectron"),
        Found("gain + 4 %", Body.With(i => i with { GainElectronPerDn = 1.04 * i.GainElectronPerDn }), "gainElectronPerDn"),
        Found("clip − 0.15 EV", Body.With(i => i with { SaturationDn = i.SaturationDn * Math.Pow(2, -0.15) }), "saturationDn"),
    ];

    public static IReadOnlyList<Scenario> All { get; } =
    [
        NoChange("no change"),
        NoChange("no change, read by the meter's step, no repeat") with { Setting = StudySetting.Realistic, MostUndecided = null },
        Margin("read noise + 5 %, the margin", Body.With(i => i with { ReadNoiseElectron = 1.05 * i.ReadNoiseElectron })),
        Margin("gain + 2 %, the margin", Body.With(i => i with { GainElectronPerDn = 1.02 * i.GainElectronPerDn })),
        Margin("saturation + 1 %, the margin", Body.With(i => i with { SaturationDn = 1.01 * i.SaturationDn })),
        Margin("black + 1 DN, the margin", Body.With(i => i with { BlackDn = i.BlackDn + 1 })),
        Margin("middle grey + 0.1 EV, the margin", Body.With(i => i with { GreyElectron = i.GreyElectron * Math.Pow(2, 0.1) })),
        Margin("preview clip + 0.15 EV, the margin", Body with { PreviewClipEv = Body.PreviewClipEv + 0.15 }),
        Change("read noise + 7 %", Body.With(i => i with { ReadNoiseElectron = 1.07 * i.ReadNoiseElectron }), r => OnlyFigures(r, "readNoiseElectron", "readNoiseDn")),
        Change("gain + 3 %", Body.With(i => i with { GainElectronPerDn = 1.03 * i.GainElectronPerDn }), r => OnlyFigures(r, "gainElectronPerDn", "saturationElectron")),
        Change("clip − 0.13 EV", Body.With(i => i with { SaturationDn = i.SaturationDn * Math.Pow(2, -0.13) }), r => IsChanged(r, "saturationDn") && !IsChanged(r, "middleGreyDn") && r.Changes.Count == 0),
        Change("black + 2 DN", Body.With(i => i with { BlackDn = i.BlackDn + 2 }), r => OnlyCode(r, ChangeCode.BlackMoved)),
        Change("filtering on, 8 % from the neighbours", Body with { FilterShare = 0.08 }, r => OnlyCode(r, ChangeCode.FilterChanged)),
        Change("ISO scale + 0.2 EV", Body.With(i => i with { GreyElectron = i.GreyElectron * Math.Pow(2, 0.2) }), r => OnlyCode(r, ChangeCode.IsoShifted)),
        Change("preview clip + 0.3 EV", Body with { PreviewClipEv = Body.PreviewClipEv + 0.3 }, r => OnlyCode(r, ChangeCode.PreviewChanged)),
        .. Enumerable.Range(0, 5).SelectMany(Repeated),
    ];

    /// <summary>Sets as they come, with a number of repeats.</summary>
    private static IEnumerable<Scenario> Repeated(int repeats) => AsSetsCome.Select(s => s with
    {
        Name = string.Create(CultureInfo.InvariantCulture, $"{s.Name}, as sets come, {repeats} repeat{(repeats == 1 ? string.Empty : "s")}"),
        Setting = StudySetting.Realistic,
        Repeats = repeats,
        WithPixels = true,
    });

    private static Scenario Found(string name, StudyBody after, string figure) => Change(name, after, r => IsChanged(r, figure));

    private static Scenario NoChange(string name) => new() { Name = name, After = Body, MostChanged = 0.025, MostUndecided = 0.05 };

    private static Scenario Margin(string name, StudyBody after) => new() { Name = name, After = after, MostChanged = 0.025, MostEquivalent = 0.05 };

    private static Scenario Change(string name, StudyBody after, Func<RetestResult, bool> isNamed) => new() { Name = name, After = after, IsNamed = isNamed };

    private static bool IsChanged(RetestResult result, string name) => result.Figures.Any(f => f.Verdict == RetestVerdict.Changed && f.Address.Name == name);

    private static bool OnlyFigures(RetestResult result, params string[] names) =>
        result.Changes.Count == 0 && IsChanged(result, names[0]) && result.Figures.Where(f => f.Verdict == RetestVerdict.Changed).All(f => names.Contains(f.Address.Name));

    private static bool OnlyCode(RetestResult result, string code) => result.Changes.Count > 0 && result.Changes.All(c => c.Code == code);
}
