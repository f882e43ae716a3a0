using System.Globalization;
using SensorLab.Profiles;
using SensorLab.TestData;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Shelf.Tests;

/// <summary>Profiles of many bodies, of known truth: what bodies differ by, what sets differ by, and which bodies drift.</summary>
/// <param name="isos">How many ISOs a profile has.</param>
/// <param name="levels">How many levels an ISO has.</param>
internal sealed class SimulatedFleet(int isos = 2, int levels = 12)
{
    /// <summary>Relative standard deviation of read noise between bodies of the model.</summary>
    public const double BodySpread = 0.03;

    /// <summary>Relative standard uncertainty of read noise within a set, and what sets differ by.</summary>
    public const double SetSpread = 0.005;

    /// <summary>How much read noise rises at a drift.</summary>
    public const double Drift = 0.25;

    private static readonly string[] Models = ["LM-2", "LM-3", "LM-5"];

    private readonly SensorProfile _template = SampleProfiles.ThreeIsos();

    /// <summary>The profile of a body at its n-th set; from <paramref name="driftsFrom"/> on its read noise is higher.</summary>
    public SensorProfile Profile(int body, int set, int? driftsFrom = null)
    {
        var random = new Random((body * 1000) + set);
        double own = 1 + (BodySpread * Normal(new Random(body)));
        double factor = own * (1 + (SetSpread * Normal(random))) * (driftsFrom <= set ? 1 + Drift : 1);
        string firmware = string.Create(CultureInfo.InvariantCulture, $"1.{set / 5}");
        return _template with
        {
            CreatedUtc = new DateTimeOffset(2021, 1, 1, 9, 0, 0, TimeSpan.Zero).AddDays((90 * set) + (body % 60)),
            Body = new BodyIdentity("Larkmoor", Models[body % Models.Length], string.Create(CultureInfo.InvariantCulture, $"{20000 + body}"), firmware),
            IsoProfiles = [.. Enumerable.Range(0, isos).Select(i => Iso(100 * (i + 1), factor, random))],
        };
    }

    private IsoProfile Iso(int iso, double factor, Random random)
    {
        IsoProfile first = _template.IsoProfiles[0];
        return first with
        {
            Iso = iso,
            Channels = [.. first.Channels.Select(c => c with { ReadNoiseElectron = Scaled(c.ReadNoiseElectron!, factor), ReadNoiseDn = Scaled(c.ReadNoiseDn!, factor) })],
            Levels = [.. Enumerable.Range(0, levels).Select(l => first.Levels[l % first.Levels.Count]).Select(l => l with { Channels = [.. l.Channels.Select(c => c with { MeanDn = c.MeanDn + random.NextDouble(), FrameMeansDn = [], SpotMeanDn = null, SpotMeanUncertaintyDn = null, Histogram = null, TemporalParts = null, FixedPatternParts = null })] })],
        };
    }

    private static Figure Scaled(Figure figure, double factor) => SampleProfiles.Measured(figure.Value!.Value * factor, figure.Value!.Value * SetSpread, figure.DegreesOfFreedom);
}
