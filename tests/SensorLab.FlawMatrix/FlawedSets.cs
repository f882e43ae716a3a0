using System.Collections.Concurrent;
using System.Globalization;
using SensorLab.FlawMatrix.Foreign;
using SensorLab.Profiles;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.FlawMatrix;

/// <summary>Runs sets with flaws and judges them beside the same sets without.</summary>
internal sealed class FlawedSets(int scale)
{
    /// <summary>Flaws of one ISO among others, or of files that a whole set must survive.</summary>
    private static readonly string[] OverIsos = ["gain-digital", "gain-shared", "gain-switch", "iso-disagrees", "dark-missing", "metered-missing"];

    /// <summary>
    /// Rows that share noise go by another code where they do not show before the SNR's own end; metered frames that stand stops
    /// apart were metered in two lights; two lights closer than the catalogue calls a step are a light that varies, and a lamp or
    /// shutter that varies by steps is one or the other, which the finding says; light in dark frames that does not show itself may leave
    /// black open. Each for some sizes of the flaw.
    /// </summary>
    private static readonly Dictionary<string, (string Code, Func<double?, bool> At)> OtherNames = new(StringComparer.Ordinal)
    {
        ["shadow-banded"] = ("noise-banded", _ => true),
        ["metered-doubtful"] = ("light-stepped", _ => true),
        ["light-stepped"] = ("light-flicker", size => size < 0.2),
        ["light-flicker"] = ("light-stepped", size => size >= 0.2),
        ["light-drift"] = ("light-stepped", size => size >= 1),
        ["exposure-inexact"] = ("light-stepped", size => size >= 0.5),
        ["dark-lit"] = ("black-drift", size => size <= 0.5),
    };

    private readonly ConcurrentDictionary<(string Body, ulong Seed, string Isos), Lazy<Task<RehearsedSet>>> _clean = new();

    /// <summary>Runs and judges one set.</summary>
    public async Task<SetOutcome> JudgeAsync(MatrixBody body, ulong seed, IReadOnlyList<FlawRequest> flaws)
    {
        IReadOnlyList<int> isos = flaws.Any(f => OverIsos.Contains(f.Code)) ? MatrixBody.SeriesOfIsos : [body.Iso];
        RehearsedSet set = await RehearsedSet.RunAsync(body.Body, isos, seed, flaws, scale);
        bool named = flaws.All(f => set.Findings.Any(finding => finding.Code == f.Code));
        return await JudgeAsync(string.Join(" ", flaws.Select(TextOf)), body, seed, isos, set, named, iso => IsExplainedAsync(set, body, seed, flaws, iso), TermsOf(flaws));
    }

    /// <summary>Runs and judges one set with a flaw by another law.</summary>
    public async Task<SetOutcome> JudgeAsync(MatrixBody body, ulong seed, ForeignFlaw flaw, double size)
    {
        RehearsedSet set = await RehearsedSet.RunAsync(body.Body, [body.Iso], seed, [], scale, plan => flaw.Begin(new ForeignScene(plan, size, seed)));
        set = set with { Truth = [.. set.Truth.Select(t => flaw.Changed(t, size, body.Body.LargestCodeDn - body.Body.BlackLevelDn))] };
        bool named = flaw.Codes.Any(code => set.Names(code, body.Iso));
        string name = string.Create(CultureInfo.InvariantCulture, $"{flaw.Name}={size}");
        return await JudgeAsync(name, body, seed, [body.Iso], set, named, _ => Task.FromResult(named), flaw.Terms);
    }

    private async Task<SetOutcome> JudgeAsync(string name, MatrixBody body, ulong seed, IReadOnlyList<int> isos, RehearsedSet set, bool named, Func<int, Task<bool>> isExplained, ForeignTerms terms)
    {
        RehearsedSet clean = await CleanAsync(body, seed, isos);
        List<string> wrong = [];
        bool owed = false;
        bool misleads = false;
        foreach (IsoTruth truth in set.Truth)
        {
            IReadOnlyList<(string Fault, bool Misleads)> faults = FigureJudge.Wrong(OfIso(set, truth.Iso), OfIso(clean, truth.Iso)!, truth, clean.Truth.First(t => t.Iso == truth.Iso), terms);
            wrong.AddRange(faults.Select(f => isos.Count > 1 ? $"ISO {truth.Iso} {f.Fault}" : f.Fault));
            misleads |= faults.Any(f => f.Misleads);
            owed |= faults.Count > 0 && !await isExplained(truth.Iso);
        }

        if (set.Failure is { } failure)
        {
            wrong.Add(failure);
            owed = true;
        }

        Verdict verdict = wrong.Count == 0 ? Verdict.Right : owed ? Verdict.Neither : misleads ? Verdict.Printed : Verdict.Found;
        return new SetOutcome(name, body.Name, seed, verdict, named, wrong, set.Findings);
    }

    /// <summary>A maker's multiplication makes other codes, whose gain, black and saturation are measured.</summary>
    private static ForeignTerms TermsOf(IReadOnlyList<FlawRequest> flaws) => new() { IsOwnLaw = channel => channel == "B" && flaws.Any(f => f.Code == "channel-scaled") };

    private static string TextOf(FlawRequest flaw) =>
        flaw.Size is { } size ? string.Create(CultureInfo.InvariantCulture, $"{flaw.Code}={size}") : flaw.Code;

    private static IsoProfile? OfIso(RehearsedSet set, int iso) => set.Profile?.IsoProfiles.FirstOrDefault(p => p.Iso == iso);

    /// <summary>Whether every flaw is named, or harmless alone where it is not; one at the least is named.</summary>
    private async Task<bool> IsExplainedAsync(RehearsedSet set, MatrixBody body, ulong seed, IReadOnlyList<FlawRequest> flaws, int iso)
    {
        FlawRequest[] unnamed = [.. flaws.Where(f => !set.Names(f.Code, iso) && !IsNamedOtherwise(set, f, iso))];
        if (unnamed.Length == flaws.Count)
        {
            return false;
        }

        foreach (FlawRequest flaw in unnamed)
        {
            if ((await JudgeAsync(body, seed, [flaw])).Verdict != Verdict.Right)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether another finding names it; of signals that leave their exposures it may say that nothing tells whether sensor, shutter or lamp did it.</summary>
    private static bool IsNamedOtherwise(RehearsedSet set, FlawRequest flaw, int iso) =>
        (OtherNames.TryGetValue(flaw.Code, out (string Code, Func<double?, bool> At) other) && other.At(flaw.Size) && set.Names(other.Code, iso))
        || (flaw.Code == "light-drift" && set.Findings.Any(f => f is { Code: "response-nonlinear", SizeUnit: "ev" } && f.Iso == iso));

    private Task<RehearsedSet> CleanAsync(MatrixBody body, ulong seed, IReadOnlyList<int> isos) => _clean.GetOrAdd(
        (body.Name, seed, string.Join(' ', isos)),
        _ => new Lazy<Task<RehearsedSet>>(() => RehearsedSet.RunAsync(body.Body, isos, seed, [], scale))).Value;
}
