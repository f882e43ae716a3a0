using System.Numerics;
using System.Runtime.CompilerServices;

namespace SensorLab.Simulation.Draws;

/// <summary>A stream of random numbers that its seed and number alone determine: xoshiro256**, seeded by SplitMix64.</summary>
/// <remarks>Blackman and Vigna, Scrambled linear pseudorandom number generators, ACM TOMS 47 (2021). A struct: pass by reference.</remarks>
internal struct RandomStream
{
    private const double UnitFrom53Bits = 1.0 / (1L << 53);

    private ulong _s0;
    private ulong _s1;
    private ulong _s2;
    private ulong _s3;

    /// <summary>Opens a stream.</summary>
    /// <param name="seed">The seed of the whole draw.</param>
    /// <param name="stream">The stream's number; streams of one seed are independent for practical purposes.</param>
    public RandomStream(ulong seed, ulong stream)
    {
        ulong state = Mix(seed, stream);
        _s0 = SplitMix(ref state);
        _s1 = SplitMix(ref state);
        _s2 = SplitMix(ref state);
        _s3 = SplitMix(ref state);
    }

    /// <summary>One number out of two, every bit of both mattering.</summary>
    public static ulong Mix(ulong seed, ulong stream)
    {
        ulong state = seed;
        ulong mixed = SplitMix(ref state) ^ BitOperations.RotateLeft(stream * 0xD1342543DE82EF95UL, 32);
        return SplitMix(ref mixed);
    }

    /// <summary>The next 64 bits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public ulong NextBits()
    {
        ulong result = BitOperations.RotateLeft(_s1 * 5, 7) * 9;
        ulong t = _s1 << 17;
        _s2 ^= _s0;
        _s3 ^= _s1;
        _s1 ^= _s2;
        _s0 ^= _s3;
        _s2 ^= t;
        _s3 = BitOperations.RotateLeft(_s3, 45);
        return result;
    }

    /// <summary>A number from 0 (included) to 1 (excluded), in steps of 2⁻⁵³.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double NextUnit() => (NextBits() >> 11) * UnitFrom53Bits;

    private static ulong SplitMix(ref ulong state)
    {
        state += 0x9E3779B97F4A7C15UL;
        ulong z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
