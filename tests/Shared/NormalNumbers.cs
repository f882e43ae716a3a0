namespace SensorLab.TestData;

/// <summary>Numbers of a normal distribution, for whatever a test or a study makes up: nothing that an estimator reckons with.</summary>
internal static class NormalNumbers
{
    /// <summary>The next number of mean 0 and standard deviation 1: the transform of Box and Muller.</summary>
    /// <param name="random">Gives two numbers.</param>
    public static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
