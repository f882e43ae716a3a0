using System.Numerics;
using SensorLab.Frames;

namespace SensorLab.RawFiles.LosslessJpeg;

/// <summary>Turns a line's differences into samples, modulo 65536.</summary>
/// <remarks>ITU-T T.81, H.1.2.1 and table H.1: a is the sample to the left, b the one above, c the one above left.</remarks>
internal static class LinePredictor
{
    /// <summary>The first line of the image or behind a restart: each sample from its left neighbour.</summary>
    /// <param name="line">Differences in, samples out.</param>
    /// <param name="components">Components whose samples alternate.</param>
    /// <param name="origin">What the first sample is predicted from: 2^(precision − point transform − 1).</param>
    public static void FirstLine(Span<ushort> line, int components, int origin)
    {
        for (int i = 0; i < components; i++)
        {
            line[i] = (ushort)(line[i] + origin);
        }

        AddLeft(line, components);
    }

    /// <summary>Any other line; its first samples are predicted from above.</summary>
    /// <param name="line">Differences in, samples out.</param>
    /// <param name="above">The line above.</param>
    /// <param name="components">Components whose samples alternate.</param>
    /// <param name="predictor">The predictor, 1 to 7.</param>
    public static void NextLine(Span<ushort> line, ReadOnlySpan<ushort> above, int components, int predictor)
    {
        for (int i = 0; i < components; i++)
        {
            line[i] = (ushort)(line[i] + above[i]);
        }

        if (predictor == 1)
        {
            AddLeft(line, components);
            return;
        }

        above = above[..line.Length];
        for (int i = components; i < line.Length; i++)
        {
            int a = line[i - components];
            int b = above[i];
            int c = above[i - components];
            int predicted = predictor switch
            {
                2 => b,
                3 => c,
                4 => a + b - c,
                5 => a + ((b - c) >> 1),
                6 => b + ((a - c) >> 1),
                _ => (a + b) >> 1,
            };
            line[i] = (ushort)(line[i] + predicted);
        }
    }

    /// <summary>Checks that no sample is larger than the image's precision allows: damage shows here first.</summary>
    /// <param name="line">The samples.</param>
    /// <param name="precision">Their bits.</param>
    /// <exception cref="MalformedFileException">A sample has more bits.</exception>
    public static void RequirePrecision(ReadOnlySpan<ushort> line, int precision)
    {
        var union = Vector<ushort>.Zero;
        int i = 0;
        for (; i <= line.Length - Vector<ushort>.Count; i += Vector<ushort>.Count)
        {
            union |= new Vector<ushort>(line[i..]);
        }

        int all = 0;
        for (int lane = 0; lane < Vector<ushort>.Count; lane++)
        {
            all |= union[lane];
        }

        for (; i < line.Length; i++)
        {
            all |= line[i];
        }

        if (all >> precision != 0)
        {
            throw new MalformedFileException($"The lossless JPEG data give a sample of more than {precision} bits: they are damaged.");
        }
    }

    private static void AddLeft(Span<ushort> line, int components)
    {
        if (components == 2)
        {
            AddLeftPairs(line);
            return;
        }

        for (int i = components; i < line.Length; i++)
        {
            line[i] = (ushort)(line[i] + line[i - components]);
        }
    }

    private static void AddLeftPairs(Span<ushort> line)
    {
        int even = 0;
        int odd = 0;
        for (int i = 0; i + 1 < line.Length; i += 2)
        {
            even += line[i];
            odd += line[i + 1];
            line[i] = (ushort)even;
            line[i + 1] = (ushort)odd;
        }
    }
}
