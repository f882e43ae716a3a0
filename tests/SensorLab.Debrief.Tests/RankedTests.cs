namespace SensorLab.Debrief.Tests;

public sealed class RankedTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(1000)]
    public void Of_ValuesWithManyAlike_IsTheSortedOnesAtThatRank(int tones)
    {
        var random = new Random(tones);
        for (int count = 1; count < 60; count++)
        {
            float[] values = [.. Enumerable.Range(0, count).Select(_ => (float)random.Next(tones))];
            float[] rising = [.. values.Order()];
            Assert.All(Enumerable.Range(0, count), rank => Assert.Equal(rising[rank], Ranked.Of([.. values], rank)));
        }
    }
}
