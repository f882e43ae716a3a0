using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Xml.Linq;
using SensorLab.TestData;

namespace SensorLab.PublicApi.Tests;

/// <summary>A project under src, as its project file and its built assembly tell.</summary>
internal sealed class Project
{
    private static readonly string Configuration = typeof(Project).Assembly
        .GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "Configuration").Value!;

    private readonly XDocument _file;

    private Project(string path)
    {
        Name = Path.GetFileNameWithoutExtension(path);
        _file = XDocument.Load(path);
        AssemblyPath = Path.Combine(Path.GetDirectoryName(path)!, "bin", Configuration, "net10.0", Name + ".dll");
    }

    public static IReadOnlyList<Project> All { get; } =
        [.. Directory.GetFiles(Path.Combine(Repository.Root, "src"), "*.csproj", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(p => new Project(p))];

    public string Name { get; }

    public IEnumerable<string> ProjectReferences => Includes("ProjectReference").Select(i => Path.GetFileNameWithoutExtension(i.Replace('\\', '/')));

    public IEnumerable<string> PackageReferences => Includes("PackageReference");

    /// <summary>The assembly that the build left in the project's own folder.</summary>
    public string AssemblyPath { get; }

    public IReadOnlyList<string> AssemblyReferences()
    {
        using PEReader file = new(File.OpenRead(AssemblyPath));
        MetadataReader metadata = file.GetMetadataReader();
        return [.. metadata.AssemblyReferences.Select(handle => metadata.GetString(metadata.GetAssemblyReference(handle).Name))];
    }

    /// <summary>Names of the types of other assemblies that the built one uses.</summary>
    public IReadOnlyList<string> TypeReferences()
    {
        using PEReader file = new(File.OpenRead(AssemblyPath));
        MetadataReader metadata = file.GetMetadataReader();
        return [.. metadata.TypeReferences.Select(handle => metadata.GetString(metadata.GetTypeReference(handle).Name))];
    }

    private IEnumerable<string> Includes(string item) => _file.Descendants(item).Select(e => e.Attribute("Include")!.Value);
}
