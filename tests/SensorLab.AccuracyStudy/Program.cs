using System.Globalization;
using SensorLab.AccuracyStudy;
using SensorLab.TestData;

// How near the figures come to the truth, and whether their uncertainties hold:
//   dotnet run -c Release --project tests/SensorLab.AccuracyStudy [--sets N] [--part TEXT] [--body TEXT] [--output FILE] [--write-results]
// A body of four channels gives four estimates a set; 600 sets (the default) give 2,400 a body and figure, 140 give 2,000
// a figure over all bodies. --sets 30 is a quick look. --write-results states the run in RESULTS.md, which takes all bodies of its parts.
// Exit status: 0 all goals of the pooled tables met, 1 one missed, 2 usage.
const int defaultSets = 600;
const int mostJobs = 2;

int sets = defaultSets;
string? output = null;
string bodyText = string.Empty;
string partText = string.Empty;
bool writesResults = false;
for (int i = 0; i < args.Length; i++)
{
    string value = i + 1 < args.Length ? args[i + 1] : string.Empty;
    switch (args[i])
    {
        case "--write-results":
            writesResults = true;
            break;
        case "--sets" when int.TryParse(value, CultureInfo.InvariantCulture, out sets) && sets > 0:
            i++;
            break;
        case "--body" when value.Length > 0:
            bodyText = value;
            i++;
            break;
        case "--part" when StudyBody.Parts.Any(p => p.Name.Contains(value, StringComparison.OrdinalIgnoreCase)):
            partText = value;
            i++;
            break;
        case "--output" when value.Length > 0:
            output = value;
            i++;
            break;
        default:
            return await UsageAsync();
    }
}

if (writesResults && bodyText.Length > 0)
{
    return await UsageAsync();
}

List<(string Name, IReadOnlyList<BodyStudy> Bodies)> parts = [];
foreach ((string name, IReadOnlyList<StudyBody> bodies) in StudyBody.Parts.Where(p => p.Name.Contains(partText, StringComparison.OrdinalIgnoreCase)))
{
    BodyStudy[] studies = [.. bodies.Where(b => b.Name.Contains(bodyText, StringComparison.OrdinalIgnoreCase)).Select(b => new BodyStudy(b))];
    foreach (BodyStudy study in studies)
    {
        await Console.Error.WriteLineAsync(study.Body.Name);
        study.Run(sets, Math.Min(mostJobs, Environment.ProcessorCount), CancellationToken.None);
    }

    if (studies.Length > 0)
    {
        parts.Add((name, studies));
    }
}

var table = new StudyTable(parts);
if (writesResults)
{
    string command = string.Create(CultureInfo.InvariantCulture, $"dotnet run -c Release --project tests/SensorLab.AccuracyStudy -- --sets {sets}{(partText.Length > 0 ? $" --part \"{partText}\"" : string.Empty)} --write-results");
    foreach ((string title, string text) in table.Sections(isWhole: partText.Length == 0))
    {
        StudyResults.Write("tests/SensorLab.AccuracyStudy", title, command, text);
    }
}

string markdown = table.ToMarkdown();
if (output is { } file)
{
    await File.WriteAllTextAsync(file, markdown);
}
else if (!writesResults)
{
    await Console.Out.WriteAsync(markdown);
}

return table.Misses == 0 ? 0 : 1;

static async Task<int> UsageAsync()
{
    await Console.Error.WriteLineAsync("Usage: [--sets N] [--part TEXT] [--body TEXT] [--output FILE] [--write-results (without --body)]");
    return 2;
}
