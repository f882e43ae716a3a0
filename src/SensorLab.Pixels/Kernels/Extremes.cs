using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SensorLab.Pixels.Kernels;

/// <summary>Lowest and highest of many numbers.</summary>
internal static class Extremes
{
    /// <summary>Lowest and highest of numbers that hold no NaN.</summary>
    /// <param name="numbers">One number or more.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static (double Lowest, double Highest) Of(ReadOnlySpan<double> numbers)
    {
        double lowest = numbers[0];
        double highest = numbers[0];
        int i = 0;
        if (Vector256.IsHardwareAccelerated && numbers.Length >= 4)
        {
            Vector256<double> low = Vector256.Create(numbers);
            Vector256<double> high = low;
            for (i = 4; i <= numbers.Length - 4; i += 4)
            {
                Vector256<double> four = Vector256.Create(numbers[i..]);
                low = Vector256.Min(low, four);
                high = Vector256.Max(high, four);
            }

            Vector128<double> lows = Vector128.Min(low.GetLower(), low.GetUpper());
            Vector128<double> highs = Vector128.Max(high.GetLower(), high.GetUpper());
            lowest = Math.Min(lows[0], lows[1]);
            highest = Math.Max(highs[0], highs[1]);
        }

        for (; i < numbers.Length; i++)
        {
            lowest = Math.Min(lowest, numbers[i]);
            highest = Math.Max(highest, numbers[i]);
        }

        return (lowest, highest);
    }
}
