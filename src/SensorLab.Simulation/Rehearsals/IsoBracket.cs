using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Draws;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>The exposure times of one ISO: where the meter reads zero, and how far the bracket runs to either side.</summary>
internal sealed class IsoBracket
{
    private const ulong MeterStream = 0x4D45_5445;

    // Middle grey is metered near an eighth of a second where the series leaves a choice: long against lamps' pulses.
    private const double PreferredMeteredSeconds = 1.0 / 8;

    private readonly double[] _seconds;
    private readonly int _stepsPerStop;

    /// <summary>Lays out the bracket of an ISO.</summary>
    public IsoBracket(VirtualBody body, VirtualIso setting, ulong seed)
    {
        _seconds = body.Shutter.Seconds();
        _stepsPerStop = body.Shutter.StepsPerStop;
        var stream = new RandomStream(RandomStream.Mix(seed, MeterStream), (ulong)setting.Iso);
        ReadingElectron = new double[body.Shooting.MeterReadings];
        for (int i = 0; i < ReadingElectron.Length; i++)
        {
            double offEv = body.Shooting.MeterStepEv * (stream.NextUnit() - 0.5);
            ReadingElectron[i] = setting.MiddleGreyElectron * Math.Pow(2, offEv);
        }

        var law = new SensorLaw(body, setting);
        double saturating = law.SaturatingElectron / law.SmallestSensitivity;
        double darkest = (law.ElectronAtSnr(1) ?? 1) / law.GreenSensitivity;
        int up = (int)Math.Ceiling(Steps(saturating / ReadingElectron[0])) + body.Shooting.LevelsPastSaturation;
        int down = (int)Math.Ceiling(Steps(ReadingElectron[0] / darkest)) + 1;
        int last = _seconds.Length - 1;
        int preferred = (int)Math.Round(Steps(PreferredMeteredSeconds / _seconds[0]));
        int highest = Math.Clamp(last - up, 0, last);
        MeteredIndex = Math.Clamp(preferred, Math.Min(down, highest), highest);
        FirstIndex = Math.Max(0, MeteredIndex - down);
        LastIndex = Math.Min(last, MeteredIndex + up);
    }

    /// <summary>Electrons at sensitivity 1 of each meter reading; the first one's lamp lights the bracket.</summary>
    public double[] ReadingElectron { get; }

    /// <summary>The index of the exposure time of the first reading.</summary>
    public int MeteredIndex { get; }

    /// <summary>The index of the bracket's shortest time.</summary>
    public int FirstIndex { get; }

    /// <summary>The index of the bracket's longest time.</summary>
    public int LastIndex { get; }

    /// <summary>The exposure time of an index in seconds.</summary>
    public double SecondsAt(int index) => _seconds[index];

    /// <summary>Electrons at sensitivity 1 of a bracket level.</summary>
    public double ElectronAt(int index) => ReadingElectron[0] * _seconds[index] / _seconds[MeteredIndex];

    /// <summary>The index of a meter reading's exposure time: each its own, around the first.</summary>
    public int ReadingIndex(int reading)
    {
        int away = (reading + 1) / 2;
        int index = reading % 2 == 1 ? MeteredIndex + away : MeteredIndex - away;
        return Math.Clamp(index, 0, _seconds.Length - 1);
    }

    private double Steps(double ratio) => _stepsPerStop * Math.Log2(ratio);
}
