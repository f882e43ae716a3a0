using System.Text.RegularExpressions;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>The documents say what the program does.</summary>
public sealed partial class DocumentTests
{
    private static readonly string[] Documents = ["README.md", "DEVELOPERS.md", .. new[] { "protocols", "src", "tests" }.SelectMany(DocumentsUnder)];

    public static TheoryData<string> CommandLines => [.. Documents.SelectMany(FencedLines).Where(l => Sensorlab().IsMatch(l)).Distinct()];

    public static TheoryData<string, string> Scripts
    {
        get
        {
            var scripts = new TheoryData<string, string>();
            foreach (string document in Documents)
            {
                foreach (string line in FencedLines(document).Where(l => l.StartsWith("bash ", StringComparison.Ordinal)))
                {
                    scripts.Add(document, line.Split(' ')[1]);
                }
            }

            return scripts;
        }
    }

    public static TheoryData<string, string> Projects
    {
        get
        {
            var projects = new TheoryData<string, string>();
            foreach (string document in Documents)
            {
                foreach (string project in FencedLines(document).SelectMany(l => Project().Matches(l)).Select(m => m.Groups[1].Value).Distinct())
                {
                    projects.Add(document, project);
                }
            }

            return projects;
        }
    }

    public static TheoryData<string, string> Links
    {
        get
        {
            var links = new TheoryData<string, string>();
            foreach (string document in Documents)
            {
                foreach (Match match in Link().Matches(File.ReadAllText(PathOf(document))))
                {
                    links.Add(document, match.Groups[1].Value);
                }
            }

            return links;
        }
    }

    [Theory]
    [MemberData(nameof(CommandLines))]
    public async Task Documents_CommandLines_Parse(string line)
    {
        // What is parsed ends in 4, since there is no folder or the library fails; what is not ends in 2.
        CommandRun run = await CommandRun.OfAsync(CommandRun.Throwing(new IOException()), [.. line.Split(' ').Skip(1)]);

        Assert.Equal(4, run.Status);
    }

    [Theory]
    [MemberData(nameof(Scripts))]
    public void Documents_Scripts_AreThere(string document, string script) =>
        Assert.True(File.Exists(PathOf(script)), $"{document} names {script}.");

    [Theory]
    [MemberData(nameof(Projects))]
    public void Documents_Projects_AreThere(string document, string project) =>
        Assert.True(Directory.GetFiles(PathOf(project), "*.csproj").Length == 1, $"{document} runs {project}.");

    [Theory]
    [MemberData(nameof(Links))]
    public void Documents_Links_LeadToFiles(string document, string target) => Assert.True(
        File.Exists(Path.Combine(Path.GetDirectoryName(PathOf(document))!, target)),
        $"{document} links to {target}.");

    [Fact]
    public void Readme_Table_IsTheApprovedOne()
    {
        string table = File.ReadAllText(PathOf("tests/SensorLab.Cli.Tests/Approved/table-three-isos.txt"));

        Assert.Contains($"```\n{table}```", File.ReadAllText(PathOf("README.md")), StringComparison.Ordinal);
    }

    [Fact]
    public void Readme_ExitStatuses_AreThePrograms()
    {
        string readme = File.ReadAllText(PathOf("README.md"));

        foreach (int status in new[] { ExitStatus.Done, ExitStatus.ProgramFault, ExitStatus.Usage, ExitStatus.Refused, ExitStatus.File, ExitStatus.Changed, ExitStatus.Undecided, ExitStatus.NotValid, ExitStatus.Cancelled })
        {
            Assert.Contains($"\n| {status} | ", readme, StringComparison.Ordinal);
        }
    }

    [GeneratedRegex("^(src/)?sensorlab ")]
    private static partial Regex Sensorlab();

    [GeneratedRegex(@"--project (\S+)")]
    private static partial Regex Project();

    [GeneratedRegex(@"\]\((?!http)([^)#]+)\)")]
    private static partial Regex Link();

    private static IEnumerable<string> FencedLines(string document) =>
        File.ReadAllText(PathOf(document)).Split("```").Where((_, i) => i % 2 == 1).SelectMany(block => block.Split('\n')).Select(l => l.Trim());

    private static string PathOf(string inRepository) => Path.Combine(Repository.Root, inRepository);

    /// <summary>Every document below a folder but what builds and packages leave there.</summary>
    private static IEnumerable<string> DocumentsUnder(string folder) =>
        Directory.EnumerateFiles(PathOf(folder), "*.md", SearchOption.AllDirectories)
            .Select(f => Path.GetRelativePath(Repository.Root, f).Replace('\\', '/'))
            .Where(f => !f.Split('/').Any(part => part is "bin" or "obj" or "node_modules"))
            .Order(StringComparer.Ordinal);
}
