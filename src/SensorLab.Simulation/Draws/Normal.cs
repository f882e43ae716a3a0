using System.Runtime.CompilerServices;

namespace SensorLab.Simulation.Draws;

/// <summary>Draws of the standard normal by a ziggurat of 256 layers: exact but for the spacing of doubles.</summary>
/// <remarks>
/// Marsaglia and Tsang, The ziggurat method, J. Stat. Softw. 5 (2000), with Doornik's separation of the layer's bits
/// (the lowest eight) from the abscissa's (the highest 53).
/// </remarks>
internal static class Normal
{
    private const int Layers = 256;

    // Where the tail begins and the area of each layer, for 256 layers (Marsaglia and Tsang 2000, section 2).
    private const double TailStart = 3.6541528853610088;
    private const double LayerArea = 4.92867323399e-3;

    private const double SignedUnitFrom53Bits = 1.0 / (1L << 52);

    private static readonly double[] Edge = BuildEdges();
    private static readonly double[] InnerRatio = BuildRatios();

    /// <summary>The next draw of mean 0 and variance 1.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Next(ref RandomStream stream)
    {
        ulong bits = stream.NextBits();
        int layer = (int)(bits & (Layers - 1));
        double u = ((long)bits >> 11) * SignedUnitFrom53Bits;
        return Math.Abs(u) < InnerRatio[layer] ? u * Edge[layer] : NextOutside(ref stream, layer, u);
    }

    private static double NextOutside(ref RandomStream stream, int layer, double u)
    {
        while (true)
        {
            if (layer == 0)
            {
                return Tail(ref stream, u < 0);
            }

            double x = u * Edge[layer];
            double outer = Math.Exp(-0.5 * ((Edge[layer] * Edge[layer]) - (x * x)));
            double inner = Math.Exp(-0.5 * ((Edge[layer + 1] * Edge[layer + 1]) - (x * x)));
            if (inner + (stream.NextUnit() * (outer - inner)) < 1)
            {
                return x;
            }

            ulong bits = stream.NextBits();
            layer = (int)(bits & (Layers - 1));
            u = ((long)bits >> 11) * SignedUnitFrom53Bits;
            if (Math.Abs(u) < InnerRatio[layer])
            {
                return u * Edge[layer];
            }
        }
    }

    private static double Tail(ref RandomStream stream, bool negative)
    {
        double x;
        double y;
        do
        {
            x = -Math.Log(1 - stream.NextUnit()) / TailStart;
            y = -Math.Log(1 - stream.NextUnit());
        }
        while (y + y < x * x);
        return negative ? -(TailStart + x) : TailStart + x;
    }

    private static double[] BuildEdges()
    {
        var edge = new double[Layers + 1];
        double density = Math.Exp(-0.5 * TailStart * TailStart);
        edge[0] = LayerArea / density;
        edge[1] = TailStart;
        for (int i = 2; i < Layers; i++)
        {
            density = (LayerArea / edge[i - 1]) + density;
            edge[i] = Math.Sqrt(-2 * Math.Log(density));
        }

        return edge;
    }

    private static double[] BuildRatios()
    {
        var ratio = new double[Layers];
        for (int i = 0; i < Layers; i++)
        {
            ratio[i] = Edge[i + 1] / Edge[i];
        }

        return ratio;
    }
}
