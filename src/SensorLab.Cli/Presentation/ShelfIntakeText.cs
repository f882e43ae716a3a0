using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Shelf;

namespace SensorLab.Cli.Presentation;

/// <summary>What came of profiles that were to be taken in.</summary>
internal static class ShelfIntakeText
{
    /// <summary>The lines: what was taken in, by body.</summary>
    public static IEnumerable<string> Lines(IReadOnlyList<TakenIn> taken, string shelf)
    {
        TakenIn[] fresh = [.. taken.Where(t => t.IsNew)];
        int known = taken.Count(t => t.Key is not null && !t.IsNew);
        yield return $"{Count(fresh.Length, "profile")} taken in, {known.ToString(CultureInfo.InvariantCulture)} there already. Shelf: {shelf}";
        foreach (IGrouping<string, TakenIn> body in fresh.GroupBy(t => t.Body!.Name).OrderBy(b => b.Key, StringComparer.OrdinalIgnoreCase))
        {
            yield return $"  {body.Key}: {Count(body.Count(), "profile")}";
        }
    }

    /// <summary>Names on standard error what was left out, and why.</summary>
    /// <returns>Whether there is any.</returns>
    public static bool Complain(Terminal terminal, IReadOnlyList<TakenIn> taken)
    {
        TakenIn[] refused = [.. taken.Where(t => t.Fault is not null)];
        if (refused.Length > 0)
        {
            terminal.Error.WriteLine($"sensorlab: {Count(refused.Length, "file")} left out:");
        }

        foreach (TakenIn one in refused)
        {
            string remedy = one.Fault is ProfileFormatException format ? " " + format.Remedy : string.Empty;
            foreach (string line in WrappedText.Lines($"{one.Name}: {one.Fault!.Message}{remedy}", "  ", "    "))
            {
                terminal.Error.WriteLine(line);
            }
        }

        return refused.Length > 0;
    }

    /// <summary>A number of things.</summary>
    public static string Count(int number, string thing) => string.Create(CultureInfo.InvariantCulture, $"{number} {thing}{(number == 1 ? string.Empty : "s")}");
}
