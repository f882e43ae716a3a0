using System.Diagnostics;
using System.IO.Compression;
using System.Reflection;
using System.Xml.Linq;
using SensorLab.TestData;

namespace SensorLab.PublicApi.Tests;

/// <summary>The packages install from a folder and work, with nothing else of the repository. Minutes: a study.</summary>
[Trait("Category", "Study")]
public sealed class PackageTests : IDisposable
{
    private const string Sources = "<configuration><packageSources><clear /><add key=\"here\" value=\"packages\" /></packageSources></configuration>";

    private static readonly string Configuration = typeof(PackageTests).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "Configuration").Value!;

    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-packages-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task ProfilesPackage_DependsOnOursAloneAndCarriesReadmeSchemaDocumentationAndSymbols()
    {
        await PackAsync("SensorLab.Profiles");
        await PackAsync("SensorLab.Files");
        string[] packages = Directory.GetFiles(In("packages"));
        (string[] files, string[] dependencies) = await ContentsAsync("SensorLab.Profiles");

        string[] needed = ["README.md", "schema/sensor-profile.schema.json", "lib/net10.0/SensorLab.Profiles.dll", "lib/net10.0/SensorLab.Profiles.xml"];
        Assert.Empty(needed.Except(files));
        Assert.Equal(["SensorLab.Files"], dependencies);
        Assert.Empty((await ContentsAsync("SensorLab.Files")).Dependencies);
        Assert.Contains(packages, p => p.EndsWith(".snupkg", StringComparison.Ordinal));
    }

    [Fact]
    public async Task ProfilesPackage_FiveLinesOfItsReadme_ReadAProfile()
    {
        await PackAsync("SensorLab.Profiles");
        await PackAsync("SensorLab.Files");
        string readme = await File.ReadAllTextAsync(Path.Combine(Repository.Root, "src/SensorLab.Profiles/README.md"), TestContext.Current.CancellationToken);
        await WriteAsync("nuget.config", Sources);
        await WriteAsync("reader/Program.cs", "using SensorLab.Profiles;\n" + readme.Split("```csharp\n")[1].Split("```")[0]);
        await WriteAsync("reader/reader.csproj", """
            <Project Sdk="Microsoft.NET.Sdk">
              <PropertyGroup>
                <OutputType>Exe</OutputType>
                <TargetFramework>net10.0</TargetFramework>
                <ImplicitUsings>enable</ImplicitUsings>
                <RestorePackagesPath>../restored</RestorePackagesPath>
              </PropertyGroup>
              <ItemGroup><PackageReference Include="SensorLab.Profiles" Version="0.1.0" /></ItemGroup>
            </Project>
            """);
        File.Copy(Path.Combine(Repository.Root, "tests/SensorLab.Profiles.Tests/Released/1.0.json"), In("lm-2.json"));

        string output = await DotnetAsync("run", "--project", "reader");

        Assert.Equal("ISO 100: clips 3.20 EV above middle grey\nISO 400: clips 3.20 EV above middle grey\nISO 1600: clips 3.20 EV above middle grey\n", output);
    }

    [Fact]
    public async Task Tool_InstalledFromAFolder_Runs()
    {
        await PackAsync("SensorLab.Cli");
        await WriteAsync("nuget.config", Sources);
        await DotnetAsync("tool", "install", "SensorLab.Cli", "--tool-path", "tools", "--add-source", "packages", "--version", "0.1.0", "--configfile", "nuget.config");
        string tool = In("tools/sensorlab");

        Assert.StartsWith("SensorLab 0.1.0", await RunAsync(tool, "--version"), StringComparison.Ordinal);
        await RunAsync(tool, "rehearse", "set", "--iso", "400", "--pixels", "300x200");
        await RunAsync(tool, "characterise", "set", "--out", "p.json");
        await RunAsync(tool, "publish", "p.json", "--out", "b.zip", "--accept-findings");
        Assert.Contains("b.zip: whole, ", await RunAsync(tool, "verify", "b.zip"), StringComparison.Ordinal);
    }

    private string In(string path) => Path.Combine(_folder, path);

    private Task PackAsync(string project) => DotnetAsync(
        "pack", Path.Combine(Repository.Root, "src", project, project + ".csproj"), "--configuration", Configuration, "--no-build", "--output", In("packages"));

    private async Task<(string[] Files, string[] Dependencies)> ContentsAsync(string project)
    {
        string path = Directory.GetFiles(In("packages"), project + ".*.nupkg").Single();
        using ZipArchive package = await ZipFile.OpenReadAsync(path, TestContext.Current.CancellationToken);
        await using Stream stream = await package.GetEntry(project + ".nuspec")!.OpenAsync(TestContext.Current.CancellationToken);
        XDocument specification = await XDocument.LoadAsync(stream, LoadOptions.None, TestContext.Current.CancellationToken);
        return ([.. package.Entries.Select(e => e.FullName)], [.. specification.Descendants().Where(e => e.Name.LocalName == "dependency").Select(e => e.Attribute("id")!.Value)]);
    }

    private async Task WriteAsync(string path, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(In(path))!);
        await File.WriteAllTextAsync(In(path), text, TestContext.Current.CancellationToken);
    }

    private Task<string> DotnetAsync(params string[] words) => RunAsync("dotnet", words);

    private async Task<string> RunAsync(string program, params string[] words)
    {
        var start = new ProcessStartInfo(program, words) { WorkingDirectory = _folder, RedirectStandardOutput = true, RedirectStandardError = true };
        using Process process = Process.Start(start)!;
        Task<string> error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        string output = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode == 0, $"{program} {string.Join(' ', words)} ended in {process.ExitCode}:\n{output}\n{await error}");
        return output;
    }
}
