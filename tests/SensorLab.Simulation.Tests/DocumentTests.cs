using System.Text.Json;
using System.Text.RegularExpressions;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Tests;

public sealed partial class DocumentTests
{
    [Fact]
    public void Readme_BodyFile_IsReadAndHasThePropertiesOfABody()
    {
        string readme = File.ReadAllText(Path.Combine(Root(), "src", "SensorLab.Simulation", "README.md"));
        VirtualBody body = VirtualBodyFile.Parse(Example().Match(readme).Groups[1].Value);
        Assert.Equal("LM-2m", body.Model);
        using JsonDocument all = JsonDocument.Parse(VirtualBodyFile.ToText(new VirtualBody()));
        Assert.All(all.RootElement.EnumerateObject(), property => Assert.Contains($"`{property.Name}`", readme, StringComparison.Ordinal));
    }

    [GeneratedRegex("```json\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Example();

    private static string Root()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "SensorLab.sln")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        return folder ?? throw new DirectoryNotFoundException("The tests do not run inside the repository.");
    }
}
