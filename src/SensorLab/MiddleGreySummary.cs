using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab;

/// <summary>How middle grey was defined, over all ISOs.</summary>
internal static class MiddleGreySummary
{
    /// <summary>The summary: the worst ISO's meter figures.</summary>
    /// <param name="isoProfiles">One ISO profile or more.</param>
    /// <param name="grey">How middle grey is defined.</param>
    /// <param name="meterStepEv">The meter's step in EV.</param>
    public static MiddleGrey Of(IReadOnlyList<IsoProfile> isoProfiles, GreyMethod grey, double meterStepEv)
    {
        if (grey == GreyMethod.Saturation)
        {
            return new MiddleGrey { Method = GreyMethodName.Saturation };
        }

        IsoProfile worst = isoProfiles.MaxBy(p => p.MeterStandardUncertaintyEv)!;
        return new MiddleGrey
        {
            Method = GreyMethodName.Metered,
            MeterStepEv = meterStepEv,
            MeterStandardUncertaintyEv = worst.MeterStandardUncertaintyEv,
            Readings = worst.MeterReadings,
        };
    }
}
