using SensorLab.Profiles;
using SensorLab.Retest;

namespace SensorLab.Shelf.History;

/// <summary>The course of figures over a body's profiles, with the re-test's verdicts between neighbours.</summary>
/// <param name="Body">The body.</param>
/// <param name="Courses">One a figure and recording mode, in the profiles' order of figures.</param>
/// <remarks>
/// Neighbours are a profile and the one before it that holds the figure too, in the same recording mode: modes differ by what
/// they record, and not by what has changed. Each pair is compared as by itself: its interval is 95 % for all figures of that
/// one comparison at once, and not for all comparisons of a long course.
/// </remarks>
public sealed record BodyHistory(ShelfBody Body, IReadOnlyList<FigureCourse> Courses)
{
    /// <summary>Reads a body's profiles, and compares neighbours.</summary>
    /// <param name="body">The body.</param>
    /// <param name="profiles">Its profiles, by time.</param>
    /// <param name="wanted">Which figures.</param>
    /// <param name="read">Reads a profile's figures, from any thread.</param>
    /// <param name="compare">Compares the figures of an earlier with those of a later profile, from any thread.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ProfileFormatException">A profile has been changed since it was kept.</exception>
    /// <exception cref="IOException">A profile cannot be read.</exception>
    public static BodyHistory Of(
        ShelfBody body,
        IReadOnlyList<ShelvedProfile> profiles,
        FigureChoice wanted,
        Func<ShelvedProfile, SensorProfile> read,
        Func<ReadProfile, ReadProfile, IReadOnlyList<ComparedFigure>> compare,
        CancellationToken cancellation = default)
    {
        var documents = new ReadProfile[profiles.Count];
        var options = new ParallelOptions { CancellationToken = cancellation, MaxDegreeOfParallelism = Environment.ProcessorCount };
        InOrder(() => Parallel.For(0, documents.Length, options, i => documents[i] = new ReadProfile(profiles[i], read(profiles[i]))));
        IReadOnlyDictionary<FigureAddress, Figure>[] figures = [.. documents.Select(d => ProfileFigures.Of(d.Figures, withDelivery: true))];
        (FigureAddress Address, string Mode, int[] At)[] courses =
        [
            .. profiles.Select(p => p.Mode).Distinct().SelectMany(mode => figures.SelectMany(f => f.Keys).Distinct().Where(wanted.Includes).Select(address => (
                address,
                mode,
                Enumerable.Range(0, profiles.Count).Where(i => profiles[i].Mode == mode && figures[i].ContainsKey(address)).ToArray())))
            .Where(c => c.Item3.Length > 0),
        ];
        (int Before, int After)[] pairs = [.. courses.SelectMany(c => c.At.Zip(c.At.Skip(1))).Distinct()];
        var results = new Compared[pairs.Length];
        InOrder(() => Parallel.For(0, pairs.Length, options, i => results[i] = Compared.Of(() => compare(documents[pairs[i].Before], documents[pairs[i].After]))));
        Dictionary<(int, int), Compared> of = pairs.Zip(results).ToDictionary(p => p.First, p => p.Second);
        return new BodyHistory(body, [.. courses.Select(c => new FigureCourse(c.Address, c.Mode, [.. c.At.Select((at, i) => Point(at, i == 0 ? null : of[(c.At[i - 1], at)], c.Address))]))]);

        CoursePoint Point(int at, Compared? step, FigureAddress address) => new(
            profiles[at],
            figures[at][address],
            step?.Figures.GetValueOrDefault(address),
            step is null || step.Figures.ContainsKey(address) ? null : step.Refused ?? "The comparison does not hold this figure.");
    }

    // What one of the threads came upon is told as itself.
    private static void InOrder(Action work)
    {
        try
        {
            work();
        }
        catch (AggregateException e)
        {
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(e.Flatten().InnerExceptions[0]);
        }
    }

    private sealed record Compared(IReadOnlyDictionary<FigureAddress, ComparedFigure> Figures, string? Refused)
    {
        public static Compared Of(Func<IReadOnlyList<ComparedFigure>> compare)
        {
            try
            {
                return new Compared(compare().ToDictionary(f => f.Address), null);
            }
            catch (ProfilesNotComparableException e)
            {
                return new Compared(new Dictionary<FigureAddress, ComparedFigure>(), e.Message);
            }
        }
    }
}
