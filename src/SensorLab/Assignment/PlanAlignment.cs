namespace SensorLab.Assignment;

/// <summary>Lays the frames of a card along a plan: the most likely way through its steps, with frames skipped, shot again and foreign.</summary>
/// <remarks>
/// Costs are minus logarithms of likelihoods, roughly. A frame fits a slot where ISO and exposure time agree; the cheapest way over
/// all frames is found by dynamic programming, forward and backward, so that for every frame the cheapest way of each other
/// reading is known too: where it is nearly as cheap, the reading is in doubt.
/// </remarks>
internal sealed class PlanAlignment
{
    /// <summary>A reading is beyond doubt where every other costs so much more.</summary>
    private const double DoubtCost = 1;

    private const double SkippedCost = 0.7;
    private const double JumpCost = 5;
    private const double AgainCost = 2;
    private const double BackCost = 4;
    private const double ForeignCost = 6;

    private readonly IReadOnlyList<PlanSlot> _slots;
    private readonly IReadOnlyList<SeenFrame> _frames;
    private readonly (PlanSlot Slot, double Cost)[][] _fitting;
    private readonly double[][] _before;
    private readonly double[][] _behind;

    /// <summary>Lays frames along slots.</summary>
    /// <param name="slots">The plan's frames, in shooting order.</param>
    /// <param name="frames">The card's frames, in the order in which they were taken.</param>
    /// <param name="fit">What it costs to take a frame for a slot; null where it cannot be.</param>
    public PlanAlignment(IReadOnlyList<PlanSlot> slots, IReadOnlyList<SeenFrame> frames, Func<SeenFrame, PlanSlot, double?> fit)
    {
        _slots = slots;
        _frames = frames;
        ILookup<(int, int?), PlanSlot> bySetting = slots.ToLookup(s => (s.Step.Iso, s.Thirds));
        _fitting = [.. frames.Select(f => bySetting[(f.Iso, f.Thirds)].Select(s => (s, fit(f, s))).Where(p => p.Item2 is not null).Select(p => (p.s, p.Item2!.Value)).ToArray())];
        _before = Forward();
        _behind = Backward();
    }

    /// <summary>The readings of a frame, the cheapest first: one for each kind, and none at all.</summary>
    /// <typeparam name="TKind">What makes two readings differ.</typeparam>
    /// <param name="index">The frame's place.</param>
    /// <param name="kindOf">The kind of a slot.</param>
    /// <returns>The cheapest slot (null for no frame of the plan), and whether no other kind is nearly as cheap.</returns>
    public (PlanSlot? Slot, bool IsSure, PlanSlot? Other) Read<TKind>(int index, Func<PlanSlot, TKind> kindOf)
        where TKind : notnull
    {
        double[] costs = [.. _fitting[index].Select(c => c.Cost + Cheapest(_before[index], c.Slot.Place) + _behind[index + 1][c.Slot.Place + 1])];
        double foreign = Enumerable.Range(0, _slots.Count + 1).Min(p => _before[index][p] + ForeignCost + _behind[index + 1][p]);
        if (costs.Length == 0)
        {
            return (null, true, null);
        }

        int best = costs.Index().MinBy(c => c.Item).Index;
        PlanSlot slot = _fitting[index][best].Slot;
        TKind kind = kindOf(slot);
        (PlanSlot Slot, double Cost)[] others = [.. _fitting[index].Zip(costs, (c, cost) => (c.Slot, cost)).Where(o => !kindOf(o.Slot).Equals(kind)).OrderBy(o => o.cost)];
        double next = Math.Min(foreign, others.Length > 0 ? others[0].Cost : double.PositiveInfinity);
        if (foreign < costs[best])
        {
            return (null, costs[best] - foreign > DoubtCost, slot);
        }

        return (slot, next - costs[best] > DoubtCost, others.Length > 0 && others[0].Cost <= foreign ? others[0].Slot : null);
    }

    // Place p of a row: the slot behind the one that was filled last.
    private static double Step(int from, int slot) =>
        from == slot ? 0
        : from < slot ? Math.Min(SkippedCost * (slot - from), JumpCost)
        : from == slot + 1 ? AgainCost
        : BackCost;

    private static double Cheapest(double[] row, int slot)
    {
        double least = double.PositiveInfinity;
        for (int p = 0; p < row.Length; p++)
        {
            least = Math.Min(least, row[p] + Step(p, slot));
        }

        return least;
    }

    private double[][] Forward()
    {
        var rows = new double[_frames.Count + 1][];
        rows[0] = [.. Enumerable.Range(0, _slots.Count + 1).Select(p => p == 0 ? 0 : double.PositiveInfinity)];
        for (int f = 0; f < _frames.Count; f++)
        {
            rows[f + 1] = [.. rows[f].Select(cost => cost + (_fitting[f].Length == 0 ? 0 : ForeignCost))];
            foreach ((PlanSlot slot, double cost) in _fitting[f])
            {
                rows[f + 1][slot.Place + 1] = Math.Min(rows[f + 1][slot.Place + 1], cost + Cheapest(rows[f], slot.Place));
            }
        }

        return rows;
    }

    private double[][] Backward()
    {
        var rows = new double[_frames.Count + 1][];
        rows[^1] = new double[_slots.Count + 1];
        for (int f = _frames.Count - 1; f >= 0; f--)
        {
            rows[f] = [.. rows[f + 1].Select(cost => cost + (_fitting[f].Length == 0 ? 0 : ForeignCost))];
            for (int p = 0; p <= _slots.Count; p++)
            {
                foreach ((PlanSlot slot, double cost) in _fitting[f])
                {
                    rows[f][p] = Math.Min(rows[f][p], cost + Step(p, slot.Place) + rows[f + 1][slot.Place + 1]);
                }
            }
        }

        return rows;
    }
}
