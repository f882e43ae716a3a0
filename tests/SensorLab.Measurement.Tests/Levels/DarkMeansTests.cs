using SensorLab.Law;
using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Tests.Levels;

public sealed class DarkMeansTests
{
    /// <summary>Two frames 2 DN apart scatter by √2 DN, of which Student's t with one degree of freedom makes a thousand times as much; many frames are taken at their word.</summary>
    [Fact]
    public void ReachDn_FewFrames_AllowsForWhatTheyCannotTell()
    {
        Assert.Equal(Math.Sqrt(2) * StudentTail.Quantile(1e-4, 1), new DarkMeans([511, 513]).ReachDn(6), 1e-6);
        Assert.Equal(6, new DarkMeans([.. Enumerable.Range(0, 200).Select(i => 512 + Math.Pow(-1, i))]).ReachDn(6), 0.02);
        Assert.Equal(0, new DarkMeans([512]).ReachDn(6));
    }
}
