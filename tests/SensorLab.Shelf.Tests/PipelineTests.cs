using SensorLab.Shelf.Documents;

namespace SensorLab.Shelf.Tests;

public sealed class PipelineTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public void Ahead_GivesAllItemsInOrder() => Assert.Equal(Enumerable.Range(0, 100), Enumerable.Range(0, 100).Ahead(3, Token));

    [Fact]
    public void Ahead_OfASequenceThatThrows_GivesWhatCameBeforeAndThenThrowsTheSame()
    {
        var taken = new List<int>();

        Assert.Throws<InvalidDataException>(() =>
        {
            foreach (int item in Counting(5, () => throw new InvalidDataException()).Ahead(2, Token))
            {
                taken.Add(item);
            }
        });
        Assert.Equal([0, 1, 2, 3, 4], taken);
    }

    [Fact]
    public void Ahead_ThatIsLeftEarly_HasStoppedTheSequenceNotFarAhead()
    {
        int drawn = 0;

        int first = Counting(1000, () => { }, () => drawn++).Ahead(2, Token).First();
        int atTheEnd = drawn;
        Thread.Sleep(20);

        Assert.Equal(0, first);
        Assert.InRange(drawn, 1, 4);
        Assert.Equal(atTheEnd, drawn);
    }

    [Fact]
    public void Ahead_ThatIsCancelled_SaysSo()
    {
        using var cancellation = new CancellationTokenSource();

        Assert.ThrowsAny<OperationCanceledException>(() =>
        {
            foreach (int item in Counting(1000, () => { }).Ahead(2, cancellation.Token))
            {
                cancellation.Cancel();
            }
        });
    }

    private static IEnumerable<int> Counting(int count, Action end, Action? each = null)
    {
        for (int i = 0; i < count; i++)
        {
            each?.Invoke();
            yield return i;
        }

        end();
    }
}
