using System.Globalization;
using System.Text;
using SensorLab.Frames;
using SensorLab.Planning.Plans;
using SensorLab.Simulation;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Writing;

namespace SensorLab.Tests.Plans;

/// <summary>Shoots a plan as written: trims the light at the meter's edge, turns the dials, puts the filter on, sorts the frames into their folders.</summary>
/// <param name="body">The body.</param>
/// <param name="mainsHz">The mains that the lamp runs on; null for a lamp that does not pulse.</param>
/// <param name="seed">The seed of hand and noise.</param>
internal sealed class SimulatedPhotographer(VirtualBody body, int? mainsHz, int seed)
{
    /// <summary>How far from the edge of the meter's zero a patient hand stops, in EV.</summary>
    private const double TrimEv = 0.02;

    /// <summary>How well a grey filter keeps what it says.</summary>
    private const double FilterError = 0.05;

    /// <summary>What a filament lamp's light gains and loses in a pulse.</summary>
    private const double LampRipple = 0.1;

    private const double EdgeEv = 1.0 / 6;
    private const double FilterStops = 6;
    private const double ReadoutSeconds = 1.0 / 40;
    private static readonly DateTimeOffset FirstFrame = new(2026, 4, 18, 19, 0, 0, TimeSpan.Zero);

    private readonly Random _hand = new(seed);
    private readonly VirtualCamera _camera = new(body);
    private readonly StringBuilder _table = new("file,role,lightStep,light,look\n");
    private readonly double?[] _filter = new double?[3];
    private double _electronPerSecond;
    private DateTimeOffset _time = FirstFrame;
    private int _number;

    /// <summary>What this lamp adds to the uncertainty of middle grey, in EV: bands that stand elsewhere in each metered frame.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="iso">The ISO.</param>
    public double LampEv(ShotPlan plan, int iso) => mainsHz is not { } hertz ? 0 : plan.Steps.Where(s => s.Role == "metered" && s.Iso == iso).Max(s =>
    {
        double pulses = 2 * hertz * Math.Pow(2, Math.Round(3 * Math.Log2(s.ExposureSeconds)) / 3);
        double amplitude = LampRipple * Math.Abs(Math.Sin(Math.PI * pulses)) / (Math.PI * pulses);
        return amplitude / Math.Sqrt(2 * s.Frames) / Math.Log(2);
    });

    /// <summary>Shoots the plan into a folder.</summary>
    public void Shoot(ShotPlan plan, string folder)
    {
        foreach (PlanStep step in plan.Steps)
        {
            double seconds = Math.Pow(2, Math.Round(3 * Math.Log2(step.ExposureSeconds)) / 3);
            VirtualIso setting = body.At(step.Iso);
            if (step is { Role: "metered" or "light", Ev: > 0 })
            {
                _electronPerSecond = setting.MiddleGreyElectron * Math.Pow(2, EdgeEv - (TrimEv * _hand.NextDouble())) / seconds;
            }

            double filter = FilterOf(step);
            for (int i = 0; i < step.Frames; i++)
            {
                Release(step, setting, seconds, filter, folder);
            }
        }

        File.WriteAllText(Path.Combine(folder, "frames.csv"), _table.ToString());
    }

    private double FilterOf(PlanStep step) => step.LightStep switch
    {
        null => 1,
        "far" => Math.Pow(2, -FilterStops) * (1 + (FilterError * (_filter[0] ??= Slip()))),
        "farther" => Math.Pow(2, -2 * FilterStops) * (1 + (FilterError * (_filter[1] ??= Slip()))),
        _ => Math.Pow(2, -3 * FilterStops) * (1 + (FilterError * (_filter[2] ??= Slip()))),
    };

    private double Slip() => (2 * _hand.NextDouble()) - 1;

    private void Release(PlanStep step, VirtualIso setting, double seconds, double filter, string folder)
    {
        _number++;
        bool isDark = step.Role == "dark";
        var codes = new ushort[_camera.PixelCount];
        _camera.Expose(
            new Exposure
            {
                Setting = setting,
                LightElectron = isDark ? 0 : _electronPerSecond * seconds * filter,
                ExposureSeconds = seconds,
                Seed = (ulong)seed,
                FrameNumber = (ulong)_number,
                RowLight = isDark || mainsHz is not { } hertz ? null : Rows(hertz, seconds),
            },
            codes);
        string file = string.Create(CultureInfo.InvariantCulture, $"{step.Role}{(step.Light is { } light ? "/" + light : string.Empty)}/P{_number:0000}.dng");
        string path = Path.Combine(folder, file);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, DngWriter.Encode(Describe(setting, seconds), codes, new DngOptions()));
        _table.Append(CultureInfo.InvariantCulture, $"{file},{step.Role},{step.LightStep},{step.Light},\"{step.Look}\"\n");
        _time = _time.AddSeconds(2 + Math.Ceiling(seconds));
    }

    // Light 1 + A·sin(ωt) over the time that each row is open, the rows one after the other.
    private double[] Rows(int hertz, double seconds)
    {
        double omega = 2 * Math.PI * 2 * hertz;
        double phase = 2 * Math.PI * _hand.NextDouble();
        return [.. Enumerable.Range(0, body.HeightPixels).Select(row =>
        {
            double start = (omega * ReadoutSeconds * row / body.HeightPixels) + phase;
            return 1 + (LampRipple * (Math.Cos(start) - Math.Cos(start + (omega * seconds))) / (omega * seconds));
        })];
    }

    private RawFrame Describe(VirtualIso setting, double seconds) => new()
    {
        Layout = _camera.Layout with { BitDepth = 16 },
        Declared = new DeclaredLevels
        {
            BlackDn = _camera.Layout.ColourFilterArray.Channels.ToDictionary(channel => channel, _ => body.BlackLevelDn),
            WhiteDn = Math.Round(Math.Min(body.BlackLevelDn + ((setting.FullWellElectron ?? body.FullWellElectron) / setting.GainElectronPerDn), body.LargestCodeDn)),
        },
        Metadata = new FrameMetadata
        {
            Iso = setting.Iso,
            ExposureSeconds = seconds,
            ApertureFNumber = 5.6,
            Maker = body.Maker,
            Model = body.Model,
            SerialNumber = body.SerialNumber,
            Firmware = body.Firmware,
            CaptureTime = _time,
            Metering = MeteringMode.Spot,
            ExposureCompensationEv = 0,
            WhiteBalance = "manual",
            Lens = "Larkmoor 50 mm",
            Mode = new RecordingMode(body.BitDepth, "uncompressed"),
        },
    };
}
