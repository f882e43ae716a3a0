using System.Diagnostics;
using System.Globalization;

namespace SensorLab.TestData;

/// <summary>
/// A study's <c>RESULTS.md</c>: one section a part, each with the command, commit and date of its run, so that parts may
/// be run again one by one. Tables are the study's own.
/// </summary>
internal static class StudyResults
{
    private const string Preamble = "# Results\n\nWritten by the study itself, never by hand; [studies.sh](SCRIPT) runs it again.\n";
    private const string SectionStart = "## ";

    /// <summary>Puts a part's section in place of its last one, or at the end.</summary>
    /// <param name="folder">The study's folder, from the repository's root.</param>
    /// <param name="part">The section's heading.</param>
    /// <param name="command">What was run.</param>
    /// <param name="text">The part's text and tables, without headings of the first two levels.</param>
    public static void Write(string folder, string part, string command, string text)
    {
        string path = Path.Combine(Repository.Root, folder, "RESULTS.md");
        List<string> sections = File.Exists(path) ? Sections(File.ReadAllText(path)) : [];
        string section = $"{SectionStart}{part}\n`{command}`, {Provenance()}\n\n{text.ReplaceLineEndings("\n").Trim()}\n";
        int place = sections.FindIndex(s => s.StartsWith($"{SectionStart}{part}\n", StringComparison.Ordinal));
        if (place < 0)
        {
            sections.Add(section);
        }
        else
        {
            sections[place] = section;
        }

        string script = Path.GetRelativePath(Path.Combine(Repository.Root, folder), Path.Combine(Repository.Root, "tests", "studies.sh"));
        string preamble = Preamble.Replace("SCRIPT", script.Replace('\\', '/'), StringComparison.Ordinal);
        File.WriteAllText(path, $"{preamble}\n{string.Join('\n', sections)}");
    }

    private static List<string> Sections(string text) =>
    [
        .. ("\n" + text.ReplaceLineEndings("\n"))
            .Split("\n" + SectionStart)
            .Skip(1)
            .Select(s => $"{SectionStart}{s.Trim()}\n"),
    ];

    /// <summary>The commit that the working tree stands at, whether it differs from it, and the day.</summary>
    private static string Provenance()
    {
        string day = DateTime.UtcNow.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        string commit = Git("rev-parse", "--short=7", "HEAD");
        // Results that were just written are no change of what was measured.
        string changes = Git("status", "--porcelain", "--untracked-files=no", "--", "src", "tests", ":!*RESULTS.md");
        return commit.Length == 0 ? $"commit unknown, {day}" : $"commit {commit}{(changes.Length > 0 ? " with changes" : string.Empty)}, {day}";
    }

    private static string Git(params string[] words)
    {
        try
        {
            var start = new ProcessStartInfo("git", words) { WorkingDirectory = Repository.Root, RedirectStandardOutput = true, RedirectStandardError = true };
            using Process git = Process.Start(start)!;
            string output = git.StandardOutput.ReadToEnd().Trim();
            git.WaitForExit();
            return git.ExitCode == 0 ? output : string.Empty;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return string.Empty;
        }
    }
}
