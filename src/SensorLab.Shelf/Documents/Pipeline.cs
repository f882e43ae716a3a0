using System.Collections.Concurrent;

namespace SensorLab.Shelf.Documents;

/// <summary>Work in stages side by side: a stage makes its next item while the one after it is at work on the last.</summary>
internal static class Pipeline
{
    /// <summary>Draws a sequence on a thread of its own, some items ahead of whoever takes them.</summary>
    /// <typeparam name="T">The items.</typeparam>
    /// <param name="source">The sequence; what it throws is thrown where its items end.</param>
    /// <param name="most">How many at most.</param>
    /// <param name="cancellation">Stops the drawing.</param>
    /// <returns>Its items in their order. Whoever stops taking them early stops the drawing, and waits until it has stopped.</returns>
    public static IEnumerable<T> Ahead<T>(this IEnumerable<T> source, int most, CancellationToken cancellation)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using var items = new BlockingCollection<T>(most);
        var drawing = Task.Run(() => Draw(source, items, stop.Token), CancellationToken.None);
        try
        {
            foreach (T item in items.GetConsumingEnumerable(cancellation))
            {
                yield return item;
            }
        }
        finally
        {
            stop.Cancel();
            Task.WaitAny([drawing], CancellationToken.None);
        }

        drawing.GetAwaiter().GetResult();
    }

    private static void Draw<T>(IEnumerable<T> source, BlockingCollection<T> items, CancellationToken cancellation)
    {
        try
        {
            foreach (T item in source)
            {
                items.Add(item, cancellation);
            }
        }
        finally
        {
            items.CompleteAdding();
        }
    }
}
