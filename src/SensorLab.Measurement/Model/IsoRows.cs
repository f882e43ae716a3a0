using SensorLab.Law;
using SensorLab.Measurement.Response;

namespace SensorLab.Measurement.Model;

/// <summary>Every observation of an ISO as a row, linear about the parameters so far.</summary>
internal sealed class IsoRows
{
    /// <summary>Points from which a channel's variances tell a bend by themselves: one more than a parabola has terms.</summary>
    private const int FewestPointsOfBend = 4;

    private readonly IsoRow[] _rows;
    private readonly ILookup<(int Channel, IsoRowKind Kind), int> _places;

    private IsoRows(IEnumerable<IsoRow> rows)
    {
        _rows = [.. rows];
        _places = Enumerable.Range(0, _rows.Length).ToLookup(i => (_rows[i].Channel, _rows[i].Kind));
    }

    /// <summary>How many there are.</summary>
    public int Count => _rows.Length;

    /// <summary>A row.</summary>
    /// <param name="index">Its index.</param>
    public IsoRow this[int index] => _rows[index];

    /// <summary>Writes the rows down.</summary>
    /// <param name="channels">What each channel's levels bring.</param>
    /// <param name="hasLine">Which channels have a photon-transfer line.</param>
    /// <param name="bend">What is known of the bend; null for a straight response.</param>
    /// <param name="at">The parameters so far: the channels' and, last, by how much black lay higher in lit frames.</param>
    /// <param name="isFirst">Whether they are none yet: weights are then the observations' own.</param>
    /// <param name="withPatterns">Whether fixed patterns are fitted.</param>
    /// <param name="withShift">Whether black may lie elsewhere in lit frames, where it drifts.</param>
    /// <param name="fixedShare">Share of its deviation that the weight of what was fitted elsewhere goes by.</param>
    public static IsoRows At(ChannelObservations[] channels, bool[] hasLine, BendKnowledge? bend, double[] at, bool isFirst, bool withPatterns, bool withShift, double fixedShare)
    {
        List<IsoRow> rows = [];
        double shift = withShift ? channels[0].Drift.OfLitShiftDn2At(at[^1]) : 0;
        for (int c = 0; c < channels.Length; c++)
        {
            var own = new ChannelRows(channels[c], c, at, isFirst, bend is not null, shift > 0, fixedShare);
            rows.AddRange(own.Known());
            rows.AddRange(hasLine[c] ? own.Variances() : []);
            rows.AddRange(withPatterns ? own.Patterns() : []);
        }

        if (shift > 0 && rows.Exists(r => r is { Kind: IsoRowKind.Variance, Level.IsDark: false }))
        {
            rows.Add(new IsoRow(IsoRowKind.LitShift, 0, null, -at[^1], shift, shift, [(at.Length - 1, 1)]));
        }

        if (bend is { Known: { } known } knowledge)
        {
            int place = JointModel.PlaceOf(0, NoiseParameter.BendPerDn);
            double deviation = known.StandardUncertainty * (knowledge.VariancesJoin ? 1 : fixedShare);
            rows.Add(new IsoRow(IsoRowKind.Bend, 0, null, known.Value - at[place], deviation * deviation, known.Variance, [(place, 1)]));
        }

        return new IsoRows(rows);
    }

    /// <summary>Whether the variances of some channel are enough to tell a bend.</summary>
    public bool TellBend => _places.Any(p => p.Key.Kind == IsoRowKind.Variance && p.Count() >= FewestPointsOfBend);

    /// <summary>Indices of a channel's rows of one kind.</summary>
    /// <param name="channel">Index of the channel.</param>
    /// <param name="kind">What they observe.</param>
    public IEnumerable<int> Of(int channel, IsoRowKind kind) => _places[(channel, kind)];

    /// <summary>Indices of all channels' rows of one kind.</summary>
    /// <param name="kind">What they observe.</param>
    public IEnumerable<int> Of(IsoRowKind kind) => Enumerable.Range(0, _rows.Length).Where(i => _rows[i].Kind == kind);
}
