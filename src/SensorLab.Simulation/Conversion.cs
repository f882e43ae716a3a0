using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Draws;

namespace SensorLab.Simulation;

/// <summary>From expected electrons to codes, for the pixels of one frame.</summary>
internal sealed class Conversion
{
    private readonly double _fullWellElectron;
    private readonly double _pixelNoiseElectron;
    private readonly double _codesPerElectron;
    private readonly double _digitalFactor;
    private readonly double _blackDn;
    private readonly double _lowestCodeDn;
    private readonly double _largestCodeDn;
    private readonly double _compressionPerElectron;

    /// <summary>Takes the constants of a frame from its body and exposure.</summary>
    public Conversion(VirtualBody body, Exposure exposure)
    {
        VirtualIso setting = exposure.Setting;
        _fullWellElectron = body.FullWellOf(setting);
        _pixelNoiseElectron = body.PixelNoiseElectron(setting);
        _digitalFactor = setting.DigitalFactor;
        _codesPerElectron = 1 / (setting.GainElectronPerDn * _digitalFactor);
        _blackDn = body.BlackLevelDn + exposure.BlackShiftDn;
        _lowestCodeDn = body.LowestCodeDn;
        _largestCodeDn = body.LargestCodeDn;
        _compressionPerElectron = 0.01 * body.CompressionPercent / _fullWellElectron;
    }

    /// <summary>Converts one row.</summary>
    /// <param name="stream">The frame's random numbers.</param>
    /// <param name="light">Electrons expected of each photosite at response 1.</param>
    /// <param name="response">Relative response of each.</param>
    /// <param name="offsetElectron">Fixed offset of each.</param>
    /// <param name="columnNoiseElectron">Noise that each column shares.</param>
    /// <param name="rowNoiseElectron">Noise that the row shares.</param>
    /// <param name="codes">Destination in DN.</param>
    public void ConvertRow(
        ref RandomStream stream,
        ReadOnlySpan<double> light,
        ReadOnlySpan<float> response,
        ReadOnlySpan<float> offsetElectron,
        ReadOnlySpan<double> columnNoiseElectron,
        double rowNoiseElectron,
        Span<ushort> codes)
    {
        RandomStream local = stream;
        double blackAndHalf = _blackDn + 0.5;
        for (int x = 0; x < codes.Length; x++)
        {
            double expected = light[x] * response[x];
            double electrons = expected > 0 ? Math.Min(Poisson.Next(ref local, expected), _fullWellElectron) : 0;
            electrons -= _compressionPerElectron * electrons * electrons;
            electrons += offsetElectron[x] + columnNoiseElectron[x] + rowNoiseElectron + (_pixelNoiseElectron * Normal.Next(ref local));
            double code = Math.Floor((electrons * _codesPerElectron) + blackAndHalf);
            codes[x] = (ushort)Math.Clamp(code, _lowestCodeDn, _largestCodeDn);
        }

        stream = local;
        if (_digitalFactor > 1)
        {
            Push(codes);
        }
    }

    private void Push(Span<ushort> codes)
    {
        foreach (ref ushort code in codes)
        {
            double pushed = Math.Floor(_blackDn + ((code - _blackDn) * _digitalFactor) + 0.5);
            code = (ushort)Math.Clamp(pushed, 0, _largestCodeDn);
        }
    }
}
