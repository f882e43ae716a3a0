namespace SensorLab.Retest;

/// <summary>Which of several hypotheses are rejected so that a true one is among them with no more than one probability.</summary>
/// <remarks>
/// Holm's step-down: the k-th smallest of n p-values is held against α/(n − k + 1), until the first that fails. It holds
/// whatever goes together with what, and much does: many figures follow from the same parameters.
/// </remarks>
internal static class HolmProcedure
{
    /// <summary>Rejects hypotheses.</summary>
    /// <param name="probabilities">A p-value each.</param>
    /// <param name="level">The family's error, between 0 and 1.</param>
    /// <returns>Whether each is rejected, in the same order.</returns>
    public static bool[] Reject(IReadOnlyList<double> probabilities, double level)
    {
        bool[] rejected = new bool[probabilities.Count];
        int rest = probabilities.Count;
        foreach (int i in Enumerable.Range(0, rest).OrderBy(i => probabilities[i]))
        {
            if (!(probabilities[i] <= level / rest))
            {
                break;
            }

            rejected[i] = true;
            rest--;
        }

        return rejected;
    }
}
