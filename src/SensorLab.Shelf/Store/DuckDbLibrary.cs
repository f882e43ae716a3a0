using System.Runtime.InteropServices;
using DuckDB.NET.Native;

namespace SensorLab.Shelf.Store;

/// <summary>Finds DuckDB's native library beside the program, and nowhere else; nothing is loaded before the shelf is opened.</summary>
internal static class DuckDbLibrary
{
    private const string Name = "duckdb";

    private static readonly Lock Turn = new();
    private static bool _isResolved;

    private static string FileName => OperatingSystem.IsWindows() ? "duckdb.dll" : OperatingSystem.IsMacOS() ? "libduckdb.dylib" : "libduckdb.so";

    /// <summary>Requires the library.</summary>
    /// <exception cref="ShelfException">It is not here, or cannot be loaded.</exception>
    public static void Require()
    {
        lock (Turn)
        {
            if (_isResolved)
            {
                return;
            }

            nint library = Loaded();
            NativeLibrary.SetDllImportResolver(typeof(NativeMethods).Assembly, (name, _, _) => name == Name ? library : 0);
            _isResolved = true;
        }
    }

    private static nint Loaded()
    {
        foreach (string path in Places().Where(File.Exists))
        {
            if (NativeLibrary.TryLoad(path, out nint library))
            {
                return library;
            }
        }

        throw new ShelfException(
            $"DuckDB's library, which the shelf keeps its index with, is not beside the program ({FileName}) or cannot be loaded.",
            "Install the program again, whole. Your profiles are plain files in the shelf's folder \"profiles\".");
    }

    // A program for one system has it beside itself; a tool for all systems, in its folder of natives.
    private static IEnumerable<string> Places()
    {
        string system = OperatingSystem.IsWindows() ? "win" : OperatingSystem.IsMacOS() ? "osx" : "linux";
        string processor = OperatingSystem.IsMacOS() ? string.Empty : "-" + RuntimeInformation.ProcessArchitecture.ToString().ToLowerInvariant();
        return [Path.Combine(AppContext.BaseDirectory, FileName), Path.Combine(AppContext.BaseDirectory, "runtimes", system + processor, "native", FileName)];
    }
}
