using System.Globalization;
using Spectre.Console;

namespace SensorLab.Cli.Presentation;

/// <summary>Shows how far a long work is: a bar on a terminal, a line for every tenth elsewhere.</summary>
internal static class ProgressDisplay
{
    private const int Lines = 10;

    /// <summary>Does the work and shows its progress on standard error.</summary>
    /// <param name="terminal">Where to show it.</param>
    /// <param name="title">What is done, for example "Measuring frames".</param>
    /// <param name="work">The work; it is given what to tell the number done and the number in all, from any thread.</param>
    /// <returns>What the work returns.</returns>
    public static Task<T> ShowAsync<T>(Terminal terminal, string title, Func<Action<int, int>, Task<T>> work) =>
        terminal.Live is { } live && live.Profile.Capabilities.Ansi ? ShowBarAsync(live, title, work) : work(LinesTo(terminal.Error, title));

    private static Task<T> ShowBarAsync<T>(IAnsiConsole live, string title, Func<Action<int, int>, Task<T>> work) => live
        .Progress()
        .AutoClear(true)
        .Columns(new TaskDescriptionColumn(), new ProgressBarColumn(), new PercentageColumn(), new RemainingTimeColumn())
        .StartAsync(context =>
        {
            ProgressTask task = context.AddTask(Markup.Escape(title), autoStart: true, maxValue: 1);
            return work((done, total) =>
            {
                task.MaxValue = Math.Max(1, total);
                task.Value = done;
            });
        });

    private static Action<int, int> LinesTo(TextWriter error, string title)
    {
        var turn = new Lock();
        int told = 0;
        return (done, total) =>
        {
            lock (turn)
            {
                int tenth = total > 0 ? (int)((long)done * Lines / total) : 0;
                if (tenth > told)
                {
                    told = tenth;
                    error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{title}: {done} of {total}"));
                }
            }
        };
    }
}
