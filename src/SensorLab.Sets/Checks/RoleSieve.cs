using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>frame-unassigned: nothing says what a frame is for, or which light a light frame was shot under.</summary>
internal sealed class RoleSieve : IFrameSieve
{
    /// <summary>Where more frames than this share have no role, nobody has sorted them yet.</summary>
    private const double MostStrayShare = 0.5;

    public SiftedFrames Sift(IReadOnlyList<SetFrame> frames)
    {
        SetFrame[] unassigned = [.. frames.Where(f => f.Role is null)];
        SetFrame[] nameless = [.. frames.Where(f => f.Role == FrameRole.Light && string.IsNullOrWhiteSpace(f.Light))];
        var findings = new List<Finding>();
        if (unassigned.Length > 0)
        {
            findings.Add(SetFindings.Warning(
                FindingCode.FrameUnassigned,
                unassigned,
                $"Nothing says what {SetFindings.Count(unassigned.Length)} should serve for; left out.",
                unassigned.Length > MostStrayShare * frames.Count
                    ? "An unsorted card? \"sensorlab assign FRAMES\" tells what each frame serves for and writes frames.csv, with --plan PLAN.json or --metered SECONDS@ISO."
                    : "Move them into a folder called dark, metered, bracket or light/NAME, or give them a role in frames.csv."));
        }

        if (nameless.Length > 0)
        {
            findings.Add(SetFindings.Warning(
                FindingCode.FrameUnassigned,
                nameless,
                $"{SetFindings.Count(nameless.Length)} of another light without its name; left out.",
                "Put them into light/NAME, for example light/tungsten, or name the light in the column light of frames.csv."));
        }

        return new SiftedFrames([.. frames.Except(unassigned).Except(nameless)], findings);
    }
}
