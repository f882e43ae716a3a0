using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Retest.Confirm;
using SensorLab.TestData;

namespace SensorLab.Retest.Tests.Confirm;

/// <summary>Verdicts over 500 simulated pairs of a profile and ten frames each, drawn as levels without pixels.</summary>
public sealed class ConfirmationPairsTests
{
    private const int Pairs = 500;

    /// <summary>The goal: an unchanged body is called different in no more.</summary>
    private const double MostFalse = 0.025;

    /// <summary>The goal: a changed one is found in no fewer.</summary>
    private const double FewestFound = 0.95;

    private static readonly (string Name, Func<int, LevelsOnlyJob> Job, bool IsChanged)[] Kinds =
    [
        ("the same body", seed => new LevelsOnlyJob(seed), false),
        ("the same body, another name", seed => new LevelsOnlyJob(seed) { SerialNumber = "other" }, false),
        ("black + 2 DN", seed => new LevelsOnlyJob(seed) { BlackMovedDn = 2 }, true),
        ("read noise + 10 %", seed => new LevelsOnlyJob(seed) { ReadNoiseFactor = 1.1 }, true),
        ("gain + 3 %", seed => new LevelsOnlyJob(seed) { GainFactor = 1.03 }, true),
        ("another firmware's gaps, every twentieth code", seed => new LevelsOnlyJob(seed) { CodeStepDn = 1.05, Firmware = "9.9" }, true),
    ];

    [Fact]
    public void Confirm_FiveHundredPairsOfEachKind_AreToldApart()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        var rows = Kinds.Select(kind =>
        {
            ConfirmVerdict[] verdicts = [.. Enumerable.Range(1, Pairs).Select(seed => Confirmation.Of(profile, kind.Job(seed).Draw(profile, 400), RetestMargins.Default).Verdict)];
            return (kind.Name, kind.IsChanged, Consistent: verdicts.Count(v => v == ConfirmVerdict.Consistent), Different: verdicts.Count(v => v == ConfirmVerdict.Different));
        }).ToArray();
        if (Environment.GetEnvironmentVariable("SENSORLAB_WRITE_RESULTS") is { Length: > 0 })
        {
            string table = string.Join('\n', rows.Select(r => string.Create(CultureInfo.InvariantCulture, $"| {r.Name} | {r.Consistent} | {r.Different} | {Pairs - r.Consistent - r.Different} |")));
            StudyResults.Write(
                "tests/SensorLab.Retest.Tests/Confirm",
                "Confirm",
                "bash tests/studies.sh confirm",
                $"{Pairs} pairs a kind: a profile, and five dark and five metered frames at ISO 400, a million photosites a channel, rooms of ±5 K. Goals: the same body different in at most 2.5 %, a changed one found in 95 %.\n\n| kind | consistent | different | undecided |\n| --- | --- | --- | --- |\n{table}");
        }

        Assert.All(rows, r => Assert.True(r.IsChanged ? r.Different >= FewestFound * Pairs : r.Different <= MostFalse * Pairs && r.Consistent >= FewestFound * Pairs, r.ToString()));
    }
}
