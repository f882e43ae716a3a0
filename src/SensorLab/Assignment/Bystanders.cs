using System.Globalization;
using SensorLab.Frames;
using SensorLab.Planning.Plans;

namespace SensorLab.Assignment;

/// <summary>Sets aside what cannot belong to the set: copies, frames of another body or size, frames that don't say their exposure.</summary>
internal sealed class Bystanders(CardReading card, List<AssignmentQuestion> questions)
{
    /// <summary>Of two bodies, the one with so many times the frames is the one that was meant.</summary>
    private const double ClearlyMore = 2;

    /// <summary>Sets frames aside.</summary>
    /// <param name="readings">All frames, in the order in which they were taken; those of which the user said the use stay as they are.</param>
    public void SetAside(IReadOnlyList<Reading> readings)
    {
        Incomplete(readings);
        Copies(readings);
        Bodies(readings);
        Sizes(readings);
    }

    private void Incomplete(IReadOnlyList<Reading> readings)
    {
        Reading[] silent = [.. readings.Where(r => r.IsOpen && (r.Frame.Raw.Metadata.Iso is null || r.Frame.Raw.Metadata.ExposureSeconds is null))];
        foreach (Reading reading in silent)
        {
            reading.Doubt("It does not say its ISO or exposure time.");
        }

        if (silent.Length > 0)
        {
            questions.Add(new AssignmentQuestion(Files(silent), "At which ISO and exposure time were these shot? Fill the columns iso and exposureSeconds of frames.csv, and assign again."));
        }
    }

    private static void Copies(IReadOnlyList<Reading> readings)
    {
        foreach (var same in readings.GroupBy(r => (r.Frame.ContentKey, r.Frame.Raw.Metadata.CaptureTime)))
        {
            // Whoever copies a file adds to its name.
            Reading kept = same.OrderBy(r => r.IsOpen).ThenBy(r => r.Frame.File.Length).First();
            foreach (Reading copy in same.Where(r => r != kept && r.IsOpen && r.Frame.Sample.WhiteShare < 1))
            {
                copy.Take(FrameUse.None, $"The same frame as {kept.Frame.File}.");
            }
        }
    }

    private void Bodies(IReadOnlyList<Reading> readings)
    {
        IGrouping<string, Reading>[] bodies = [.. readings.Where(r => r.Use is null or { Role: not null }).GroupBy(r => NameOf(r.Frame.Raw.Metadata)).OrderByDescending(Weight).ThenBy(g => g.Key, StringComparer.Ordinal)];
        if (bodies.Length < 2)
        {
            return;
        }

        bool isClear = Weight(bodies[0]) >= ClearlyMore * Weight(bodies[1]) || bodies[0].Any(r => r.Frame.Said?.Role is not null);
        foreach (Reading reading in (isClear ? bodies.Skip(1) : bodies).SelectMany(g => g).Where(r => r.IsOpen))
        {
            if (isClear)
            {
                reading.Take(FrameUse.None, $"Another body: {NameOf(reading.Frame.Raw.Metadata)}; the set is {bodies[0].Key}'s.");
            }
            else
            {
                reading.Doubt("Two bodies have about as many frames here.");
            }
        }

        if (!isClear)
        {
            questions.Add(new AssignmentQuestion(
                Files(bodies.SelectMany(g => g)),
                $"Which body is to be characterised: {string.Join(" or ", bodies.Take(2).Select(b => b.Key))}? Move the other's frames out of this folder, or give them the role none in frames.csv, and assign again."));
        }
    }

    // With a plan, only frames at its settings speak for a body.
    private int Weight(IGrouping<string, Reading> body)
    {
        if (card.Plan is not { } plan)
        {
            return body.Count();
        }

        HashSet<(int, int?)> settings = [.. plan.Steps.Select(s => (s.Iso, ShutterTime.Nearest(s.ExposureSeconds)?.Thirds))];
        return body.Count(r => settings.Contains((r.Frame.Raw.Metadata.Iso ?? 0, ShutterTime.Nearest(r.Frame.Raw.Metadata.ExposureSeconds ?? 0)?.Thirds)));
    }

    private static void Sizes(IReadOnlyList<Reading> readings)
    {
        var sizes = readings.Where(r => r.IsOpen).GroupBy(r => (r.Frame.Raw.Layout.WidthPixels, r.Frame.Raw.Layout.HeightPixels, r.Frame.Raw.Layout.ColourFilterArray.Name)).OrderByDescending(g => g.Count()).ToArray();
        foreach (var other in sizes.Skip(1))
        {
            foreach (Reading reading in other)
            {
                reading.Take(FrameUse.None, string.Create(CultureInfo.InvariantCulture, $"Another size than the set's frames: {other.Key.WidthPixels}x{other.Key.HeightPixels} photosites."));
            }
        }
    }

    private static string NameOf(FrameMetadata metadata) =>
        string.Join(' ', new[] { metadata.Model, metadata.SerialNumber }.Where(w => !string.IsNullOrWhiteSpace(w)).Select(w => w!.Trim())) is { Length: > 0 } name ? name : "a body without a name";

    private static string[] Files(IEnumerable<Reading> readings) => [.. readings.Select(r => r.Frame.File)];
}
