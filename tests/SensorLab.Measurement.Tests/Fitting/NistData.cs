using System.Globalization;
using SensorLab.TestData;

namespace SensorLab.Measurement.Tests.Fitting;

/// <summary>Statistical reference data of NIST (StRD) from the folder of test data beside the repository.</summary>
internal sealed class NistData
{
    private readonly string[] _lines;

    private NistData(string[] lines) => _lines = lines;

    public static NistData Open(string name)
    {
        string folder = Path.Combine(Repository.Root, "..", "shared", "real-data", "nist");
        Assert.SkipUnless(Directory.Exists(folder), "The NIST data are not here.");
        return new NistData(File.ReadAllLines(Path.Combine(folder, name + ".dat")));
    }

    /// <summary>Rows of numbers from a line on, counted from 1 as the files do.</summary>
    public double[][] Rows(int from) =>
        [.. _lines.Skip(from - 1).Where(l => !string.IsNullOrWhiteSpace(l)).Select(Numbers)];

    /// <summary>The single column below the last ruled line.</summary>
    public double[] Column()
    {
        int rule = Array.FindLastIndex(_lines, l => l.StartsWith("-----", StringComparison.Ordinal));
        return [.. Rows(rule + 2).Where(r => r.Length == 1).Select(r => r[0])];
    }

    /// <summary>The numbers of the first line that begins with a label and holds any.</summary>
    public double[] Labelled(string label) => _lines
        .Where(l => l.TrimStart().StartsWith(label, StringComparison.Ordinal))
        .Select(l => Numbers(l.TrimStart()[label.Length..]))
        .First(numbers => numbers.Length > 0);

    /// <summary>Digits that the suite asks of a set: 9, 7 or 6 by the level of difficulty that the file names.</summary>
    public int DigitsAsked => _lines.Any(l => l.Contains("Lower Level", StringComparison.Ordinal)) ? 9
        : _lines.Any(l => l.Contains("Average Level", StringComparison.Ordinal)) ? 7 : 6;

    /// <summary>The lines of parameters B0, B1 … or b1, b2 …: the numbers of each.</summary>
    public double[][] Parameters() =>
    [
        .. _lines
            .Select(l => l.Trim())
            .Where(l => l.Length > 2 && l[0] is 'B' or 'b' && char.IsAsciiDigit(l[1]))
            .Select(l => Numbers(l[2..]))
            .Where(numbers => numbers.Length is 2 or 4),
    ];

    /// <summary>The numbers below the last line that begins with "Data:"; rows that hold none are headings.</summary>
    public double[][] Table()
    {
        int heading = Array.FindLastIndex(_lines, l => l.StartsWith("Data:", StringComparison.Ordinal));
        return [.. Rows(heading + 2).Where(r => r.Length > 0)];
    }

    /// <summary>Significant digits to which a number agrees with a certified one, where a certified zero asks for less than 10⁻⁶.</summary>
    public static double DigitsOrZero(double computed, double certified) =>
        certified != 0 ? Digits(computed, certified) : Math.Abs(computed) < ZeroLimit ? MostDigits : 0;

    private const double ZeroLimit = 1e-6;
    private const double MostDigits = 15;

    /// <summary>Significant digits to which a number agrees with a certified one: the NIST's log relative error.</summary>
    public static double Digits(double computed, double certified) =>
        computed == certified ? 15 : -Math.Log10(Math.Abs(computed - certified) / Math.Abs(certified));

    private static double[] Numbers(string line) =>
        [.. line.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
            .Select(t => double.TryParse(t, CultureInfo.InvariantCulture, out double number) ? number : double.NaN)
            .Where(double.IsFinite)];
}
