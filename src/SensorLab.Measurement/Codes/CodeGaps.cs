using SensorLab.Profiles;

namespace SensorLab.Measurement.Codes;

/// <summary>Codes that are never met between others that are: single ones at the rim of few codes, which their mean step does not show.</summary>
internal static class CodeGaps
{
    /// <summary>Values that each code beside a gap has at the least: one between two such is empty by chance once in e²².</summary>
    private const long FewestValues = 22;

    /// <summary>By how much the mean of the codes may be off, in DN: recording puts the values of a gap's codes into one or the other beside it.</summary>
    /// <param name="codes">Codes of a level of one light.</param>
    /// <returns>
    /// Of codes that all lie s apart (s − 1)/2, the most that it can be; of a code that is missing alone three quarters of its
    /// share, which is the most where all its values went to one side. 0 where none is missing beyond chance.
    /// </returns>
    public static double ShiftDn(CodeHistogram codes)
    {
        double shift = 0;
        int before = -1;
        for (int i = 0; i < codes.Counts.Count; i++)
        {
            if (codes.Counts[i] == 0)
            {
                continue;
            }

            if (before >= 0 && i - before > 1 && Math.Min(codes.Counts[before], codes.Counts[i]) >= FewestValues)
            {
                // In even steps a gap of g codes has g/(g + 1) of its neighbours' mean count, each value (g + 1)/2 away on the mean.
                shift += (i - before - 1) / 4.0 * (codes.Counts[before] + codes.Counts[i]);
            }

            before = i;
        }

        return shift / codes.Counts.Sum();
    }
}
