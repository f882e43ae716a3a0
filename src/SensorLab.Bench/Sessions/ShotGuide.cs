using System.Globalization;
using SensorLab.Bench.Api;
using SensorLab.Planning.Plans;

namespace SensorLab.Bench.Sessions;

/// <summary>What to dial next.</summary>
internal static class ShotGuide
{
    // An unhurried pace with a remote control, in seconds.
    private const double SecondsAFrame = 2;
    private const double SecondsADial = 3;
    private const double SecondsAnAction = 40;

    /// <summary>The next setting.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="missing">Its steps that frames are missing of, those left out for having enough not among them.</param>
    /// <param name="further">What is asked for beyond the plan.</param>
    /// <param name="latestStep">The step of the frame shot last; null where none was.</param>
    public static NextShot? Next(ShotPlan plan, IReadOnlyList<PlanStep> missing, IReadOnlyList<PlanStep> further, int? latestStep)
    {
        PlanStep[] left = [.. missing, .. further];
        if (left.Length == 0)
        {
            return null;
        }

        PlanStep next = left[0];
        double seconds = left.Sum(s => (s.Frames * (s.ExposureSeconds + SecondsAFrame)) + SecondsADial + (SecondsAnAction * s.Actions.Count));
        bool isFurther = missing.Count == 0;
        bool isPassedOver = !isFurther && latestStep > next.Number;
        return new NextShot
        {
            Role = next.Role,
            Iso = next.Iso,
            Shutter = next.Shutter,
            ExposureSeconds = next.ExposureSeconds,
            LightStep = next.LightStep,
            Light = next.Light,
            Look = next.Look,
            Step = isFurther ? null : next.Number,
            Frames = next.Frames,
            Actions = isPassedOver && next.LightStops is not null ? ["The light as it was for this ISO.", .. next.Actions] : next.Actions,
            IsPassedOver = isPassedOver,
            Reason = isFurther ? "Asked for beyond the plan: a wanted figure is not sure enough yet." : null,
            FramesLeft = left.Sum(s => s.Frames),
            MinutesLeft = (int)Math.Ceiling(seconds / 60),
            Then = left.Length > 1 ? string.Create(CultureInfo.InvariantCulture, $"{left[1].Role}, ISO {left[1].Iso}, {left[1].Shutter}") : null,
        };
    }

    /// <summary>A plan in short.</summary>
    public static PlanBrief Brief(ShotPlan plan) =>
        new(plan.Protocol, plan.ProtocolVersion, plan.Title, plan.Isos, plan.Summary.Frames, plan.Summary.Minutes, plan.Kit, plan.Cautions, [.. plan.Notices.Select(n => n.Message)]);
}
