using System.Reflection;
using PublicApiGenerator;
using SensorLab.TestData;

namespace SensorLab.PublicApi.Tests;

public sealed class PublicApiTests
{
    private static readonly ApiGeneratorOptions Options = new()
    {
        IncludeAssemblyAttributes = false,
        // How a property is left out of the document is the schema's matter.
        ExcludeAttributes = ["System.Text.Json.Serialization.JsonIgnoreAttribute"],
    };

    /// <summary>All of them are packed.</summary>
    public static TheoryData<string> Projects => [.. Project.All.Select(p => p.Name)];

    [Theory]
    [MemberData(nameof(Projects))]
    public void PublicApi_OfProject_IsTheApprovedOne(string name)
    {
        // Only its metadata are read: what it stands on, native libraries above all, is not loaded.
        Assembly assembly = Assembly.LoadFrom(Project.All.Single(p => p.Name == name).AssemblyPath);

        GoldenFile.Verify(assembly.GeneratePublicApi(Options), $"tests/SensorLab.PublicApi.Tests/Approved/{name}.txt");
    }
}
