using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest.Changes;

/// <summary>iso-shifted: the room above middle grey changed, and it is middle grey that moved more than half the way.</summary>
internal sealed class IsoShiftedCheck : IChangeCheck
{
    public IEnumerable<Change> Find(RetestEvidence evidence)
    {
        if (evidence.Before.MiddleGrey.Method != GreyMethodName.Metered || evidence.After.MiddleGrey.Method != GreyMethodName.Metered)
        {
            yield break;
        }

        foreach (IGrouping<int, ComparedFigure> iso in evidence.Changed("aboveEv").GroupBy(f => f.Address.Iso))
        {
            ComparedFigure above = iso.FirstOrDefault(f => f.Address.Channel is null) ?? iso.First();
            double? shift = above.Difference?.Value;
            double? grey = GreyShiftEv(evidence, iso.Key);
            if (shift is { } moved && (grey is not { } own || Math.Abs(own) >= Math.Abs(moved) / 2))
            {
                string direction = moved > 0 ? "lower" : "higher";
                yield return new Change(ChangeCode.IsoShifted, iso.Key, string.Create(
                    CultureInfo.InvariantCulture,
                    $"ISO {iso.Key}: middle grey lies {Math.Abs(moved):0.00} EV {direction} against saturation: the meter puts it elsewhere under the same number, with {moved:+0.00;-0.00} EV of room above it.{Caution(evidence, moved)}"));
            }
        }
    }

    /// <summary>A meter that shows steps reads zero over a whole step: within that it can make the shift by itself.</summary>
    private static string Caution(RetestEvidence evidence, double shiftEv)
    {
        double step = Math.Max(evidence.Before.MiddleGrey.MeterStepEv ?? 0, evidence.After.MiddleGrey.MeterStepEv ?? 0);
        return Math.Abs(shiftEv) > step ? string.Empty : string.Create(
            CultureInfo.InvariantCulture,
            $" That is within the meter's step of {step:0.00} EV: unless both sets were metered at the same point of its zero, the meter alone can make it. Meter again before you blame anything else.");
    }

    /// <summary>How far middle grey's signal moved, the channels' mean; null where it is not known.</summary>
    private static double? GreyShiftEv(RetestEvidence evidence, int iso)
    {
        double[] shifts = [.. evidence.Of("middleGreyDn", iso).Where(f => f.Before.Value > 0 && f.After.Value > 0).Select(f => Math.Log2(f.After.Value!.Value / f.Before.Value!.Value))];
        return shifts.Length == 0 ? null : shifts.Average();
    }
}
