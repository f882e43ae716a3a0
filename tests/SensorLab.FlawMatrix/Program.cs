using SensorLab.FlawMatrix;

// What becomes of flawed sets: right figures, or a finding that names the flaw, or neither.
//   dotnet run -c Release --project tests/SensorLab.FlawMatrix [--flaw CODE[,CODE]] [--seeds N] …
// Three parts: every flaw in its sizes (matrix), sets without flaws (clean), the likeliest flaws two at a time (pairs).
// Every set that is neither, and every false alarm, goes to standard error as it happens.
// Exit status: 0 all goals met, 1 one missed, 2 usage.
if (StudyOptions.Parse(args) is not { } options)
{
    await Console.Error.WriteLineAsync(StudyOptions.Usage);
    return 2;
}

var sets = new FlawedSets(options.Scale);
List<StudyReport> reports = [];
if (options.Includes("matrix"))
{
    reports.Add(await MatrixStudy.RunAsync(sets, options));
}

if (options.Includes("clean"))
{
    reports.Add(await CleanStudy.RunAsync(options));
}

if (options.Includes("pairs"))
{
    reports.Add(await PairStudy.RunAsync(sets, options));
}

string text = string.Join(Environment.NewLine, reports.Select(r => r.Text));
if (options.Output is { } file)
{
    await File.WriteAllTextAsync(file, text);
}
else
{
    await Console.Out.WriteAsync(text);
}

return reports.All(r => r.IsMet) ? 0 : 1;
