using SensorLab.Simulation.Draws;

namespace SensorLab.Simulation.Tests.Draws;

public sealed class DrawsTests
{
    private const int Draws = 4_000_000;

    // Limits are five standard errors: a sound generator fails one of these about once in a million runs, and seeds are fixed.
    private const double StandardErrors = 5;

    [Fact]
    public void Normal_FourMillionDraws_HasTheNormalsMoments()
    {
        var stream = new RandomStream(11, 0);
        double[] sums = new double[5];
        int beyondThree = 0;
        int beyondTail = 0;
        for (int i = 0; i < Draws; i++)
        {
            double z = Normal.Next(ref stream);
            double power = 1;
            for (int k = 1; k <= 4; k++)
            {
                power *= z;
                sums[k] += power;
            }

            beyondThree += Math.Abs(z) > 3 ? 1 : 0;
            beyondTail += Math.Abs(z) > 3.6541528853610088 ? 1 : 0;
        }

        double n = Draws;
        Assert.InRange(sums[1] / n, -StandardErrors / Math.Sqrt(n), StandardErrors / Math.Sqrt(n));
        Within(sums[2] / n, 1, Math.Sqrt(2 / n));
        Within(sums[3] / n, 0, Math.Sqrt(15 / n));
        Within(sums[4] / n, 3, Math.Sqrt(96 / n));
        WithinCount(beyondThree, 0.0026997960632602);
        WithinCount(beyondTail, 0.00025802);
    }

    [Theory]
    [InlineData(0.02)]
    [InlineData(0.7)]
    [InlineData(3)]
    [InlineData(9.99)]
    [InlineData(10)]
    [InlineData(47.3)]
    [InlineData(255.9)]
    [InlineData(256)]
    [InlineData(900.5)]
    [InlineData(40_000)]
    public void Poisson_AnyMean_HasMeanVarianceAndSkewOfPoisson(double mean)
    {
        var stream = new RandomStream(12, (ulong)(mean * 1000));
        double first = 0;
        double second = 0;
        double third = 0;
        for (int i = 0; i < Draws; i++)
        {
            double d = Poisson.Next(ref stream, mean) - mean;
            first += d;
            second += d * d;
            third += d * d * d;
        }

        double n = Draws;
        double fourth = mean + (3 * mean * mean);

        // The sixth central moment of Poisson is 15λ³ + 25λ² + λ.
        double sixth = (15 * Math.Pow(mean, 3)) + (25 * mean * mean) + mean;
        Within(first / n, 0, Math.Sqrt(mean / n));
        Within(second / n, mean, Math.Sqrt((fourth - (mean * mean)) / n));
        Within(third / n, mean, Math.Sqrt((sixth - (mean * mean)) / n));
    }

    [Theory]
    [InlineData(0.4)]
    [InlineData(6)]
    [InlineData(12)]
    [InlineData(30)]
    [InlineData(200)]
    public void Poisson_BelowTheSwitch_FollowsTheProbabilitiesThemselves(double mean)
    {
        var stream = new RandomStream(13, (ulong)(mean * 1000));
        var counts = new int[1000];
        for (int i = 0; i < Draws; i++)
        {
            counts[(int)Poisson.Next(ref stream, mean)]++;
        }

        double chiSquare = 0;
        int cells = 0;
        double probability = Math.Exp(-mean);
        for (int k = 0; k < counts.Length; k++)
        {
            double expected = probability * Draws;
            if (expected >= 20)
            {
                chiSquare += (counts[k] - expected) * (counts[k] - expected) / expected;
                cells++;
            }

            probability *= mean / (k + 1);
        }

        Assert.InRange(chiSquare, cells - (StandardErrors * Math.Sqrt(2 * cells)), cells + (StandardErrors * Math.Sqrt(2 * cells)));
    }

    [Fact]
    public void Poisson_ZeroMean_IsZero()
    {
        var stream = new RandomStream(1, 1);
        Assert.Equal(0, Poisson.Next(ref stream, 0));
    }

    [Fact]
    public void RandomStream_SameSeedAndNumber_SameBits()
    {
        var one = new RandomStream(5, 6);
        var same = new RandomStream(5, 6);
        var other = new RandomStream(5, 7);
        ulong first = one.NextBits();
        Assert.Equal(first, same.NextBits());
        Assert.NotEqual(first, other.NextBits());
    }

    private static void WithinCount(int count, double probability) =>
        Within(count / (double)Draws, probability, Math.Sqrt(probability / Draws));

    private static void Within(double value, double expected, double standardError) =>
        Assert.InRange(value, expected - (StandardErrors * standardError), expected + (StandardErrors * standardError));
}
