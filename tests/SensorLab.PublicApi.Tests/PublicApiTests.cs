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

    [Theory]
    [InlineData("SensorLab.Frames")]
    [InlineData("SensorLab.Profiles")]
    public void PublicApi_OfLibrary_IsTheApprovedOne(string library) =>
        GoldenFile.Verify(Assembly.Load(library).GeneratePublicApi(Options), $"tests/SensorLab.PublicApi.Tests/Approved/{library}.txt");
}
