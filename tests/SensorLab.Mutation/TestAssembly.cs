using SensorLab.TestData;

namespace SensorLab.Mutation;

/// <summary>A test project's binaries, copied so that mutated assemblies and the worker can lie among them.</summary>
internal sealed class TestAssembly
{
    /// <summary>Larger files, native libraries above all, are linked instead of copied.</summary>
    private const long LargestCopyBytes = 4_000_000;

    private TestAssembly(string name, string folder) => (Name, Folder) = (name, folder);

    public string Name { get; }

    public string Folder { get; }

    /// <summary>Every managed assembly beside the tests.</summary>
    public IEnumerable<string> Libraries => Directory.EnumerateFiles(Folder, "*.dll").Where(f => new FileInfo(f) is { LinkTarget: null });

    /// <summary>Copies a project's Release build to where it may be changed; below the repository, where its tests look for files.</summary>
    public static TestAssembly Copy(string name)
    {
        string source = Path.Combine(Repository.Root, "tests", name, "bin", "Release", "net10.0");
        string target = Path.Combine(Repository.Root, "tests", "SensorLab.Mutation", "obj", "mutated", name);
        if (Directory.Exists(target))
        {
            Directory.Delete(target, recursive: true);
        }

        foreach (string file in Directory.EnumerateFiles(source, "*", SearchOption.AllDirectories))
        {
            string copy = Path.Combine(target, Path.GetRelativePath(source, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            if (new FileInfo(file).Length > LargestCopyBytes)
            {
                File.CreateSymbolicLink(copy, file);
            }
            else
            {
                File.Copy(file, copy);
            }
        }

        var assembly = new TestAssembly(name, target);
        assembly.Put(typeof(TestAssembly).Assembly.Location);
        return assembly;
    }

    /// <summary>Puts a mutated assembly in place of the sound one, where there is one.</summary>
    public void Replace(string assembly)
    {
        if (File.Exists(Path.Combine(Folder, Path.GetFileName(assembly))))
        {
            Put(assembly);
        }
    }

    private void Put(string assembly) => File.Copy(assembly, Path.Combine(Folder, Path.GetFileName(assembly)), overwrite: true);
}
