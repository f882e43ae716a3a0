using System.Globalization;
using SensorLab.TestData;

namespace SensorLab.Measurement.Tests.Fitting;

/// <summary>A set of certified reference data from the folder <c>Certified</c>, whose README tells its lines.</summary>
internal sealed class CertifiedSet
{
    private const double ZeroLimit = 1e-6;
    private const double MostDigits = 15;

    private readonly ILookup<string, string[]> _lines;

    private CertifiedSet(IEnumerable<string> lines) =>
        _lines = lines.Select(l => l.Split(',')).ToLookup(words => words[0], words => words[1..]);

    /// <summary>Digits that the suite asks of a set: 9, 7 or 6 by its level of difficulty.</summary>
    public int DigitsAsked => _lines["level"].Single()[0] switch
    {
        "lower" => 9,
        "average" => 7,
        _ => 6,
    };

    /// <summary>Estimate and standard deviation of each parameter; of nonlinear sets both starting values after them.</summary>
    public double[][] Parameters => [.. _lines["parameter"].Select(Numbers)];

    /// <summary>The observations in their order.</summary>
    public double[][] Rows { get; private init; } = [];

    public static CertifiedSet Open(string name)
    {
        string[] lines = File.ReadAllLines(Path.Combine(Repository.Root, "tests", "SensorLab.Measurement.Tests", "Fitting", "Certified", name + ".csv"));
        return new CertifiedSet(lines) { Rows = [.. RowsOf(lines)] };
    }

    /// <summary>The certified numbers of a line.</summary>
    public double[] Values(string line) => Numbers(_lines[line].Single());

    /// <summary>Significant digits to which a number agrees with a certified one: the log relative error.</summary>
    public static double Digits(double computed, double certified) =>
        computed == certified ? MostDigits : -Math.Log10(Math.Abs(computed - certified) / Math.Abs(certified));

    /// <summary>The same, where a certified zero asks for less than 10⁻⁶.</summary>
    public static double DigitsOrZero(double computed, double certified) =>
        certified != 0 ? Digits(computed, certified) : Math.Abs(computed) < ZeroLimit ? MostDigits : 0;

    private static IEnumerable<double[]> RowsOf(string[] lines)
    {
        int repeat = Array.FindIndex(lines, l => l.StartsWith("repeat,", StringComparison.Ordinal));
        double[][] once = Data(repeat < 0 ? lines : lines[..repeat]);
        if (repeat < 0)
        {
            return once;
        }

        double[][] cycle = Data(lines[repeat..]);
        int times = int.Parse(lines[repeat].Split(',')[1], CultureInfo.InvariantCulture);
        return once.Concat(Enumerable.Repeat(cycle, times).SelectMany(rows => rows));
    }

    private static double[][] Data(string[] lines) =>
        [.. lines.Select(l => l.Split(',')).Where(words => words[0] == "data").Select(words => Numbers(words[1..]))];

    private static double[] Numbers(string[] words) => [.. words.Select(w => double.Parse(w, CultureInfo.InvariantCulture))];
}
