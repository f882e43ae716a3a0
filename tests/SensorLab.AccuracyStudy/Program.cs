using System.Globalization;
using SensorLab.AccuracyStudy;

// How near the figures come to the truth, and whether their uncertainties hold:
//   dotnet run -c Release --project tests/SensorLab.AccuracyStudy [--sets N] [--body TEXT] [--output FILE]
// A body of four channels gives four estimates a set; 600 sets (the default) give 2,400 a body and figure. --sets 30 is
// a quick look. Exit status: 0 all goals of the pooled table met, 1 one missed, 2 usage.
const int defaultSets = 600;
const int mostJobs = 2;

int sets = defaultSets;
string? output = null;
string bodyText = string.Empty;
for (int i = 0; i < args.Length; i += 2)
{
    string value = i + 1 < args.Length ? args[i + 1] : string.Empty;
    switch (args[i])
    {
        case "--sets" when int.TryParse(value, CultureInfo.InvariantCulture, out sets) && sets > 0:
            break;
        case "--body" when value.Length > 0:
            bodyText = value;
            break;
        case "--output" when value.Length > 0:
            output = value;
            break;
        default:
            await Console.Error.WriteLineAsync("Usage: [--sets N] [--body TEXT] [--output FILE]");
            return 2;
    }
}

List<BodyStudy> studies = [];
foreach (StudyBody body in StudyBody.All.Where(b => b.Name.Contains(bodyText, StringComparison.OrdinalIgnoreCase)))
{
    var study = new BodyStudy(body);
    await Console.Error.WriteLineAsync(body.Name);
    study.Run(sets, Math.Min(mostJobs, Environment.ProcessorCount), CancellationToken.None);
    studies.Add(study);
}

var table = new StudyTable(studies);
string markdown = table.ToMarkdown();
if (output is null)
{
    await Console.Out.WriteAsync(markdown);
}
else
{
    await File.WriteAllTextAsync(output, markdown);
}

return table.Misses == 0 ? 0 : 1;
