using System.Globalization;
using SensorLab.Frames;

namespace SensorLab.Assignment;

/// <summary>Frames that lie in a role's folder: the folder is the user's word, unless the pixels say otherwise.</summary>
internal sealed class FiledFrames(List<AssignmentQuestion> questions)
{
    /// <summary>So many times the limit of darkness is a signal beyond doubt.</summary>
    private const double BeyondDoubt = 3;

    /// <summary>Asks about frames whose folder cannot be right, and takes the others for what their folders say.</summary>
    /// <param name="readings">All frames with their light.</param>
    /// <param name="hasPlan">Whether a plan will tell more of them: they stay open then.</param>
    public void Settle(IReadOnlyList<Reading> readings, bool hasPlan)
    {
        foreach (IGrouping<int, Reading> iso in readings.Where(r => r.IsOpen && r.Seen is not null && r.Frame.Filed is not null).GroupBy(r => r.Seen!.Iso))
        {
            Reading[] frames = [.. iso];
            foreach (Reading reading in frames.Where(r => Contradiction(r, frames) is not null).ToArray())
            {
                reading.Doubt(Contradiction(reading, frames)!);
            }

            foreach (Reading reading in hasPlan ? [] : frames.Where(r => r.IsOpen))
            {
                reading.Take(reading.Frame.Filed!, $"It lies in {FolderOf(reading)}/.");
            }
        }

        foreach (var doubt in readings.Where(r => r.Frame.Filed is not null && r is { IsSure: false, Seen: not null }).GroupBy(r => (FolderOf(r), IsDark: r.Seen!.IsDark)))
        {
            questions.Add(new AssignmentQuestion(
                [.. doubt.Select(r => r.Frame.File)],
                $"These lie in {doubt.Key.Item1}/, and do not look it: {doubt.First().Why} What are they? Write their role into their rows of frames.csv, or clear the note to leave them out, and assign again."));
        }
    }

    private static string? Contradiction(Reading reading, Reading[] iso)
    {
        SeenFrame frame = reading.Seen!;
        if (reading.Frame.Filed!.Role == FrameRole.Dark)
        {
            // Dark current grows with time: where a longer exposure has no signal, this one's is light.
            bool isLit = frame.SignalDn > SeenFrame.MostDarkSignal * frame.RangeDn
                || (frame.SignalDn > BeyondDoubt * frame.LimitDn && iso.Any(r => r.Frame.Filed!.Role == FrameRole.Dark && r.Seen!.IsDark && r.Seen.Seconds >= frame.Seconds));
            return isLit ? string.Create(CultureInfo.InvariantCulture, $"There is light in it: a signal of {frame.SignalDn:0.0} DN.") : null;
        }

        if (!frame.IsDark)
        {
            return null;
        }

        double dimmest = iso.Select(r => r.Seen!.LightEv).Where(l => l is not null).Select(l => l!.Value).DefaultIfEmpty(double.NegativeInfinity).Min();
        return frame.SignalAt(dimmest) > BeyondDoubt * frame.LimitDn ? "There is no light in it." : null;
    }

    private static string FolderOf(Reading reading) => RoleWord.Of(reading.Frame.Filed!.Role!.Value);
}
