using System.Globalization;
using SensorLab.Cli;
using SensorLab.Intakes;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.Plans;
using SensorLab.Profiles;
using SensorLab.Simulation.Cards;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Tests.Plans;

/// <summary>A simulated photographer shoots plans: intake has no complaint, and uncertainties come out as predicted.</summary>
/// <remarks>
/// Each plan is shot twice, as people do: the first set by typical figures, the second by the profile of the first, which also
/// makes the prediction. Small frames; the profile's own number of pixels scales the prediction. The prediction is of the
/// sensor alone, as the plan says: what the simulated lamp's bands add to middle grey is known, and may come on top in
/// quadrature where the analysis saw them.
/// </remarks>
public sealed class PlannedSetTests(ITestOutputHelper output, PlanStudyResults results) : IClassFixture<PlanStudyResults>, IDisposable
{
    /// <summary>The goal: uncertainties within 25 % of the predicted ones.</summary>
    private const double Tolerance = 0.25;

    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-planned-").FullName;

    public static TheoryData<string, int, int> Quick => new()
    {
        { "evening", 0, 50 },
        { "lights", 1, 60 },
        { "long-exposures", 2, 50 },
        { "after-an-update", 3, 60 },
    };

    public static TheoryData<string, int, int> Everything
    {
        get
        {
            var all = new TheoryData<string, int, int>();
            foreach (string name in ProtocolLibrary.Names)
            {
                foreach (int body in Enumerable.Range(0, PlannedBody.All.Count))
                {
                    all.Add(name, body, 50);
                    all.Add(name, body, 60);
                }
            }

            return all;
        }
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [MemberData(nameof(Quick))]
    public async Task Shoot_Plan_LeavesIntakeNothingToSayAndComesOutAsPredicted(string protocol, int body, int mains) =>
        Hold(await ShootAsync(protocol, body, mains, mostIsos: 1));

    [Theory]
    [Trait("Category", "Study")]
    [MemberData(nameof(Everything))]
    public async Task Shoot_EveryPlan_LeavesIntakeNothingToSayAndComesOutAsPredicted(string protocol, int body, int mains)
    {
        results.Begin();
        IReadOnlyList<PlannedRatio> ratios = await ShootAsync(protocol, body, mains, mostIsos: 3);
        results.Add(ratios);
        Hold(ratios);
    }

    private static void Hold(IReadOnlyList<PlannedRatio> ratios) =>
        Assert.All(ratios, r => Assert.True(Math.Abs(r.Ratio - 1) <= Tolerance, string.Create(CultureInfo.InvariantCulture, $"{r.Figure} at ISO {r.Iso}: {r.Ratio:F3} of the predicted uncertainty")));

    private async Task<IReadOnlyList<PlannedRatio>> ShootAsync(string protocol, int number, int mains, int mostIsos)
    {
        PlannedBody body = PlannedBody.All[number];
        int seed = FirstSeed(protocol, number, mains);
        var request = new PlanRequest
        {
            Protocol = ProtocolLibrary.Find(protocol)!,
            Isos = [.. body.Isos.Take(mostIsos)],
            Shutter = body.Shutter,
            Mains = new MainsLight(mains),
        };
        (_, SensorProfile earlier) = await SetAsync(ShotPlanner.Plan(request), body, mains, "first", seed);
        ShotPlan plan = ShotPlanner.Plan(request with { From = earlier });
        (IntakeReport intake, SensorProfile profile) = await SetAsync(plan, body, mains, "second", seed + 1);
        PlanComparison comparison = await PlanReview.RunAsync(Path.Combine(_folder, "second"), plan, 2, TestContext.Current.CancellationToken);

        Assert.DoesNotContain(plan.Notices, n => n.Code == "light-pulses");
        Assert.Empty(comparison.Missing);
        Assert.Empty(comparison.ShotTwice);
        Assert.Empty(comparison.NotPlanned);
        Complaints(intake, plan);
        Assert.Equal(plan.Isos, plan.Prediction.Select(p => p.Iso));
        var lamp = new PulsedLamp(mains);
        PlannedRatio[] ratios = [.. plan.Prediction.SelectMany(p => Ratios(p, profile.IsoProfiles.Single(i => i.Iso == p.Iso), lamp.GreyEv(plan, p.Iso)))];
        foreach (PlannedRatio ratio in ratios)
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{protocol} {body.Name} {mains} Hz {ratio.Figure} at ISO {ratio.Iso}: {ratio.Ratio:F3} of the predicted uncertainty"));
        }

        return ratios;
    }

    /// <summary>The seed of a plan's first set, its own: one that all plans shared would repeat its luck in each.</summary>
    private static int FirstSeed(string protocol, int body, int mains) =>
        1 + (2 * (mains + (100 * (body + (PlannedBody.All.Count * ProtocolLibrary.Names.ToList().IndexOf(protocol))))));

    private async Task<(IntakeReport Intake, SensorProfile Profile)> SetAsync(ShotPlan plan, PlannedBody body, int mains, string name, int seed)
    {
        string frames = Path.Combine(_folder, name);
        WriteSet(plan, body, new PulsedLamp(mains), frames, seed);
        var options = new CharacterisationOptions { Jobs = 2 };
        IntakeReport intake = await Intake.RunAsync(frames, options, null, TestContext.Current.CancellationToken);
        return (intake, await Characterisation.RunAsync(frames, options, null, TestContext.Current.CancellationToken));
    }

    private static void WriteSet(ShotPlan plan, PlannedBody body, PulsedLamp lamp, string folder, int seed)
    {
        RehearsalPlan set = RehearsalPlan.Of(new RehearsalOptions { Body = body.Body, Script = RehearsedPlan.Of(plan, []), Seed = (ulong)seed });
        var chance = new Random(seed);
        CardWriter.WriteSorted([.. set.Frames.Select(f => new CardFrame(f.File, lamp.Lit(f, body.Body.HeightPixels, chance), set, BelongsToSet: true))], folder);
    }

    /// <summary>Nothing wrong, and no end missed that the plan did not name.</summary>
    private static void Complaints(IntakeReport intake, ShotPlan plan)
    {
        string[] ends = [FindingCode.ShadowNotReached, FindingCode.SaturationNotReached, FindingCode.ExposureInexact, FindingCode.BlackDrift];
        bool isDeep = ProtocolLibrary.Find(plan.Protocol)!.Bracket.ShadowSnr <= 1;
        Finding[] complaints = [.. intake.Findings.Where(f =>
            (f.Severity != FindingSeverity.Note || ends.Contains(f.Code))
            && !(f.Code == FindingCode.ShadowNotReached && !isDeep)
            && !plan.Notices.Any(n => n.Code == f.Code && n.Iso == f.Iso))];
        Assert.True(complaints.Length == 0, string.Join("; ", complaints.Select(f => $"{f.Code} {f.Iso}: {f.Message}")));
        Assert.True(intake.CanBeCharacterised);
    }

    private static IEnumerable<PlannedRatio> Ratios(PlanPrediction predicted, IsoProfile measured, double lampEv)
    {
        ChannelProfile[] greens = [.. measured.Channels.Where(c => c.Name is "G1" or "G2" or "Y")];
        yield return new PlannedRatio("gain", predicted.Iso, greens.Average(c => Relative(c.GainElectronPerDn!)) / Relative(predicted.GainElectronPerDn));
        yield return new PlannedRatio("read noise (e⁻)", predicted.Iso, greens.Average(c => Relative(c.ReadNoiseElectron!)) / Relative(predicted.ReadNoiseElectron));
        yield return new PlannedRatio("above", predicted.Iso, WithLamp(measured.Latitude.AboveEv!.StandardUncertainty!.Value, predicted.AboveEv!.StandardUncertainty!.Value, lampEv));
        yield return new PlannedRatio("below, SNR 10", predicted.Iso, WithLamp(measured.Latitude.BelowEv.Single(b => b.Snr == 10).PerPixel!.StandardUncertainty!.Value, predicted.BelowEv!.StandardUncertainty!.Value, lampEv));
    }

    /// <summary>Stated over predicted uncertainty; where more is stated, the lamp's part is taken off as far as it goes.</summary>
    private static double WithLamp(double stated, double predicted, double lampEv) =>
        stated <= predicted ? stated / predicted : Math.Max(1, stated / double.Hypot(predicted, lampEv));

    private static double Relative(Figure figure) => figure.StandardUncertainty!.Value / figure.Value!.Value;
}
