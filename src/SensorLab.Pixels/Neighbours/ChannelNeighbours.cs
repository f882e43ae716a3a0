using SensorLab.Pixels.Planes;

namespace SensorLab.Pixels.Neighbours;

/// <summary>Which sites of a channel that has several places in a repeat are neighbours: the nearest ones, wherever they lie.</summary>
internal sealed class ChannelNeighbours
{
    private const int FourNeighbours = 4;
    private const int EightNeighbours = 8;

    /// <summary>Repeats in each direction in which neighbours are looked for: a channel with a single place would have its eight within one.</summary>
    private const int Reach = 1;

    /// <summary>Looks for the neighbours of a channel.</summary>
    /// <param name="places">The channel's places, all of one repeat.</param>
    public ChannelNeighbours(IReadOnlyList<PlanePlace> places)
    {
        List<NeighbourLink> sides = [];
        List<NeighbourLink> around = [];
        List<NeighbourLink> along = [];
        List<NeighbourLink> across = [];
        for (int from = 0; from < places.Count; from++)
        {
            (NeighbourLink Link, int Down, int Right)[] others = [.. OthersOf(places, from)];
            Array.Sort(Array.ConvertAll(others, RankOf), others);
            sides.AddRange(others.Take(FourNeighbours).Select(o => o.Link));
            around.AddRange(others.Take(EightNeighbours).Select(o => o.Link));
            along.Add(others.First(o => o.Down == 0 && o.Right > 0).Link);
            across.Add(others.First(o => o.Right == 0 && o.Down > 0).Link);
        }

        HashSet<NeighbourLink> near = [.. sides.Select(Turned)], wide = [.. around.Select(Turned)], right = [.. along.Select(Turned)], below = [.. across.Select(Turned)];
        Pairs = [.. wide.Union(right).Union(below).Select(l => new NeighbourPair(l, near.Contains(l), wide.Contains(l), right.Contains(l), below.Contains(l), Touch(places, l)))];
    }

    /// <summary>Every pair of neighbours once, whichever site names the other.</summary>
    public IReadOnlyList<NeighbourPair> Pairs { get; }

    private static IEnumerable<(NeighbourLink Link, int Down, int Right)> OthersOf(IReadOnlyList<PlanePlace> places, int own) =>
        from to in Enumerable.Range(0, places.Count)
        from down in Enumerable.Range(-Reach, 1 + (2 * Reach))
        from right in Enumerable.Range(-Reach, 1 + (2 * Reach))
        where to != own || down != 0 || right != 0
        select (
            new NeighbourLink(own, to, down, right),
            (down * places[own].RowStep) + places[to].Row - places[own].Row,
            (right * places[own].ColumnStep) + places[to].Column - places[own].Column);

    /// <summary>The nearest first; of those as near the one in the row, then upper before lower and left before right.</summary>
    private static int RankOf((NeighbourLink Link, int Down, int Right) other)
    {
        const int Span = 1 << 5;
        (int down, int right) = (other.Down + (Span / 2), other.Right + (Span / 2));
        return (((((other.Down * other.Down) + (other.Right * other.Right)) * Span) + Math.Abs(other.Down)) * Span * Span) + (down * Span) + right;
    }

    private static bool Touch(IReadOnlyList<PlanePlace> places, NeighbourLink link) =>
        Math.Abs((link.Down * places[0].RowStep) + places[link.To].Row - places[link.From].Row) <= 1
        && Math.Abs((link.Right * places[0].ColumnStep) + places[link.To].Column - places[link.From].Column) <= 1;

    /// <summary>A pair as its first site names it.</summary>
    private static NeighbourLink Turned(NeighbourLink link) =>
        link.From > link.To || (link.From == link.To && (link.Down < 0 || (link.Down == 0 && link.Right < 0))) ? new NeighbourLink(link.To, link.From, -link.Down, -link.Right) : link;
}
