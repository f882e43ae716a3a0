using SensorLab.Profiles;

namespace SensorLab.Assignment;

/// <summary>Tells what every frame of a card serves for, from headers and small samples of the photosites; asks what they cannot tell.</summary>
/// <remarks>Pure: the same frames and the same knowledge give the same assignment.</remarks>
public static class CardReader
{
    /// <summary>Where equal signals at exposures so far apart show that more light is not seen.</summary>
    private const double PlateauExposures = 1.2;

    private const double PlateauShare = 0.98;

    /// <summary>Tells.</summary>
    /// <param name="frames">The frames of a card, in any order.</param>
    /// <param name="card">What is known beside.</param>
    public static FrameAssignment Read(IReadOnlyList<SampledFrame> frames, CardReading card)
    {
        var questions = new List<AssignmentQuestion>();
        var findings = new List<Finding>();
        Reading[] readings = [.. ShotOrder.Of(frames).Select(f => new Reading(f))];
        foreach (Reading reading in readings.Where(r => r.Frame.Said is not null))
        {
            reading.Take(reading.Frame.Said!, "As you say in frames.csv.");
        }

        new Bystanders(card, questions).SetAside(readings);
        See([.. readings.Where(r => r.IsOpen || (r.Use!.Role is not null && r.Frame.Raw.Metadata is { Iso: not null, ExposureSeconds: not null }))]);
        new EverydayPictures(questions).SetAside(readings, looksAtApertures: true);
        new FiledFrames(questions).Settle(readings, hasPlan: card.Plan is not null);
        Reading[] open = [.. readings.Where(r => r.IsOpen)];
        if (card.Plan is { } plan)
        {
            ByPlan.Tell(plan, open, questions, findings);
        }
        else
        {
            BySettings.Tell(card.Metered, [.. readings.Where(r => r is { Seen: not null, IsSure: true, Use.Role: not null })], open, questions);
        }

        return new FrameAssignment
        {
            Frames = [.. readings.Select(r => r.ToAssigned()).OrderBy(f => f.File, StringComparer.Ordinal)],
            Questions = [.. questions.Select(q => q with { Files = [.. q.Files.Order(StringComparer.Ordinal)] })],
            Findings = findings,
        };
    }

    /// <summary>The frames that show no plain field.</summary>
    /// <param name="frames">Frames whose ISO and exposure time are known.</param>
    internal static IReadOnlyList<string> EverydayPicturesAmong(IReadOnlyList<SampledFrame> frames)
    {
        Reading[] readings = [.. ShotOrder.Of(frames).Select(f => new Reading(f))];
        See(readings);
        new EverydayPictures([]).SetAside(readings, looksAtApertures: false);
        return [.. readings.Where(r => !r.IsOpen).Select(r => r.Frame.File)];
    }

    /// <summary>Frames with what their samples say of the light, in the order in which they were taken.</summary>
    /// <param name="frames">Frames whose ISO and exposure time are known.</param>
    internal static IReadOnlyList<SeenFrame> Seen(IReadOnlyList<SampledFrame> frames)
    {
        Reading[] readings = [.. ShotOrder.Of(frames).Select(f => new Reading(f))];
        See(readings);
        return [.. readings.Select(r => r.Seen!)];
    }

    private static void See(Reading[] readings)
    {
        foreach (IGrouping<int, (int Order, Reading Reading)> iso in readings.Select((r, i) => (Order: i, Reading: r)).GroupBy(r => r.Reading.Frame.Raw.Metadata.Iso!.Value))
        {
            SampledFrame[] frames = [.. iso.Select(r => r.Reading.Frame)];
            BlackReference black = BlackReference.Of(frames);
            double plateau = PlateauOf(frames, black);
            foreach ((int order, Reading reading) in iso)
            {
                reading.Seen = new SeenFrame(reading.Frame, order, black, plateau);
            }
        }
    }

    /// <summary>The signal that more light does not move, as far as the frames show it; else what the files declare, in DN above black.</summary>
    private static double PlateauOf(SampledFrame[] frames, BlackReference black)
    {
        double declared = frames.Max(f => f.Raw.Declared.WhiteDn ?? ((1 << f.Raw.Layout.BitDepth) - 1)) - black.GreenDn;
        double highest = frames.Max(f => f.Sample.GreenDn) - black.GreenDn;
        SampledFrame[] high = [.. frames.Where(f => f.Sample.GreenDn - black.GreenDn >= PlateauShare * highest)];
        bool isPlateau = highest > declared / 4 && high.Max(f => f.Raw.Metadata.ExposureSeconds) >= PlateauExposures * high.Min(f => f.Raw.Metadata.ExposureSeconds);
        return isPlateau ? Math.Min(highest, declared) : declared;
    }
}
