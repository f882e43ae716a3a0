using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.RetestStudy;

/// <summary>Whether the interval that is printed holds the body's own value whatever set is shot, and what the next set gives.</summary>
internal static class SecondSetStudy
{
    private const int SetsPerBody = 5;
    private const double Lowest = 0.93;
    private const double Highest = 0.97;
    private const double Criterion = 10;

    /// <summary>Two-sided limits are owed to what carries the meter; what temperature typically does is assumed on the safe side.</summary>
    private static readonly string[] TwoSided = ["clip above grey", "shadow end at SNR 10", "middle grey (DN)"];

    /// <summary>A table's rows.</summary>
    /// <param name="bodies">Bodies drawn.</param>
    /// <param name="jobs">How many at a time.</param>
    /// <param name="missed">Goals missed.</param>
    public static IReadOnlyList<string> Rows(int bodies, int jobs, out int missed)
    {
        var found = new List<Estimate>[bodies];
        Parallel.For(0, bodies, new ParallelOptions { MaxDegreeOfParallelism = jobs }, i => found[i] = [.. OfBody(i)]);
        Row[] rows = [.. found.SelectMany(f => f).GroupBy(e => e.Name).Select(g => new Row(g.Key, [.. g]))];
        missed = rows.Count(r => r.IsMissed);
        return
        [
            "| figure | estimates | printed interval holds the body's value (%) | next set within what both predict (%) | sensor alone, on sets without that scatter (%) | mean half-width | misses |",
            "| --- | ---: | ---: | ---: | ---: | ---: | --- |",
            .. rows.Select(r => r.Text()),
        ];
    }

    private static IEnumerable<Estimate> OfBody(int number)
    {
        int seed = 900_000_000 + (100 * number);
        StudyBody body = StudyBody.Drawn(new Random(seed));
        SensorProfile[] sets = [.. Enumerable.Range(1, SetsPerBody).Select(i => StudySet.Shoot(body, StudySetting.Realistic, "1.1", seed + i))];
        SensorProfile[] still = [.. Enumerable.Range(1, SetsPerBody).Select(i => StudySet.Shoot(body, new StudySetting { TemperatureCelsius = 0 }, "1.1", seed + 50 + i))];
        foreach (int iso in body.Isos.Select(i => i.Iso))
        {
            foreach ((string name, double truth, Func<IsoProfile, Figure?> figure) in FiguresOf(body.Isos.Single(i => i.Iso == iso)))
            {
                Figure[] shot = [.. sets.Select(s => figure(s.IsoProfiles.Single(p => p.Iso == iso))).OfType<Figure>()];
                Figure[] alone = [.. still.Select(s => figure(s.IsoProfiles.Single(p => p.Iso == iso))).OfType<Figure>()];
                for (int i = 0; i < Math.Min(shot.Length, alone.Length); i++)
                {
                    (Figure own, Figure next) = (shot[i].OfBody(), shot[(i + 1) % shot.Length].OfBody());
                    yield return new Estimate(name, Holds(own, truth), Math.Abs(next.Value!.Value - own.Value!.Value) <= double.Hypot(Half(own), Half(next)), Holds(alone[i], truth), Half(own));
                }
            }
        }
    }

    // Truth by the study's own law, in electrons: nothing of the analysis is asked.
    private static IEnumerable<(string Name, double Truth, Func<IsoProfile, Figure?> Figure)> FiguresOf(StudyIso iso)
    {
        double gain = iso.GainElectronPerDn;
        double dark = (iso.ReadNoiseElectron * iso.ReadNoiseElectron) + (gain * gain / 12) + (StudyBody.DsnuElectron * StudyBody.DsnuElectron);
        double square = Criterion * Criterion;
        double lead = 1 - (square * StudyBody.PrnuFraction * StudyBody.PrnuFraction);
        double shadow = (square + Math.Sqrt((square * square) + (4 * lead * square * dark))) / (2 * lead);
        yield return ("clip above grey", Math.Log2(iso.SaturationDn * gain / iso.GreyElectron), p => p.Latitude.AboveEv);
        yield return ("shadow end at SNR 10", Math.Log2(iso.GreyElectron / shadow), p => p.Latitude.BelowEv.Single(e => e.Snr == Criterion).PerPixel);
        yield return ("middle grey (DN)", iso.GreyElectron / gain, p => Green(p).MiddleGreyDn);
        yield return ("system gain (e⁻/DN)", gain, p => Green(p).GainElectronPerDn);
        yield return ("read noise (e⁻)", iso.ReadNoiseElectron, p => Green(p).ReadNoiseElectron);
        yield return ("black level (DN)", iso.BlackDn, p => Green(p).BlackLevelDn);
        yield return ("saturation (DN)", iso.SaturationDn, p => Green(p).SaturationDn);
    }

    private static ChannelProfile Green(IsoProfile iso) => iso.Channels.Single(c => c.Name == "G1");

    private static bool Holds(Figure figure, double truth) => figure.Lower95 <= truth && truth <= figure.Upper95;

    private static double Half(Figure figure) => (figure.Upper95!.Value - figure.Lower95!.Value) / 2;

    private sealed record Estimate(string Name, bool Holds, bool HoldsNext, bool AloneHolds, double Half);

    private sealed record Row(string Name, Estimate[] Estimates)
    {
        public bool IsMissed => Misses.Length > 0;

        private string Misses => string.Join(", ", new[]
        {
            Share(e => e.Holds) < Lowest ? "too narrow" : string.Empty,
            TwoSided.Contains(Name) && Share(e => e.Holds) > Highest ? "too wide" : string.Empty,
            Share(e => e.HoldsNext) < Lowest ? "next set outside" : string.Empty,
        }.Where(m => m.Length > 0));

        public string Text() => string.Create(
            CultureInfo.InvariantCulture,
            $"| {Name} | {Estimates.Length} | {100 * Share(e => e.Holds):0.0} | {100 * Share(e => e.HoldsNext):0.0} | {100 * Share(e => e.AloneHolds):0.0} | {Estimates.Average(e => e.Half):0.####} | {Misses} |");

        private double Share(Func<Estimate, bool> held) => Estimates.Count(held) / (double)Estimates.Length;
    }
}
