using SensorLab.Law;

namespace SensorLab.Measurement.Response;

/// <summary>What is known of a response's bend before variances are asked.</summary>
/// <param name="Known">The bend in 1/DN as signals alone tell it; null where they don't.</param>
/// <param name="VariancesJoin">Whether variances may move it: not where they contradict what signals tell.</param>
internal readonly record struct BendKnowledge(Estimate? Known, bool VariancesJoin)
{
    /// <summary>Nothing is known: variances alone tell.</summary>
    public static BendKnowledge None { get; } = new(null, VariancesJoin: true);
}
