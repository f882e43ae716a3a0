using SensorLab.FlawMatrix;
using SensorLab.FlawMatrix.Foreign;
using SensorLab.TestData;

// What becomes of flawed sets: right figures, or a finding that names the flaw, or neither.
//   dotnet run -c Release --project tests/SensorLab.FlawMatrix [--flaw CODE[,CODE]] [--seeds N] …
// Four parts: every flaw in its sizes (matrix), sets without flaws (clean), the likeliest flaws two at a time (pairs),
// and flaws by other laws than the rehearsals' own (foreign).
// --write-results states whole parts in RESULTS.md.
// Every set that is neither, and every false alarm, goes to standard error as it happens.
// Exit status: 0 all goals met, 1 one missed, 2 usage.
if (StudyOptions.Parse(args) is not { } options)
{
    await Console.Error.WriteLineAsync(StudyOptions.Usage);
    return 2;
}

var sets = new FlawedSets(options.Scale);
(string Part, Func<Task<StudyReport>> Run)[] parts =
[
    ("matrix", () => MatrixStudy.RunAsync(sets, options)),
    ("clean", () => CleanStudy.RunAsync(options)),
    ("pairs", () => PairStudy.RunAsync(sets, options)),
    ("foreign", () => ForeignStudy.RunAsync(sets, options)),
];
List<StudyReport> reports = [];
foreach ((string part, Func<Task<StudyReport>> run) in parts.Where(p => options.Includes(p.Part)))
{
    StudyReport report = await run();
    reports.Add(report);
    if (options.WritesResults)
    {
        StudyResults.Write("tests/SensorLab.FlawMatrix", part, $"dotnet run -c Release --project tests/SensorLab.FlawMatrix -- {string.Join(' ', args)}", report.Text);
    }
}

string text = string.Join(Environment.NewLine, reports.Select(r => r.Text));
if (options.Output is { } file)
{
    await File.WriteAllTextAsync(file, text);
}
else if (!options.WritesResults)
{
    await Console.Out.WriteAsync(text);
}

return reports.All(r => r.IsMet) ? 0 : 1;
