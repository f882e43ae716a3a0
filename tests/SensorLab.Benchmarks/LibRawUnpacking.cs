using System.Reflection;
using System.Runtime.InteropServices;

namespace SensorLab.Benchmarks;

/// <summary>As much of LibRaw's C interface as decodes a file's mosaic: the yardstick, not the product's own access.</summary>
internal static partial class LibRawUnpacking
{
    private const string Library = "libraw_r";

    private static readonly string[] Names = ["libraw_r.so.23", "libraw_r.so.22", "libraw_r.so.21", "libraw_r.so.20", "libraw_r.so"];

    static LibRawUnpacking() => NativeLibrary.SetDllImportResolver(Assembly.GetExecutingAssembly(), Resolve);

    /// <summary>Opens and unpacks a file.</summary>
    /// <param name="path">The file.</param>
    public static void Unpack(string path)
    {
        nint raw = Create(0);
        try
        {
            Require(OpenFile(raw, path));
            Require(Unpack(raw));
        }
        finally
        {
            Close(raw);
        }
    }

    private static void Require(int status)
    {
        if (status != 0)
        {
            throw new InvalidOperationException($"LibRaw answers {status}.");
        }
    }

    private static nint Resolve(string name, Assembly assembly, DllImportSearchPath? searchPath)
    {
        foreach (string candidate in name == Library ? Names : [])
        {
            if (NativeLibrary.TryLoad(candidate, out nint handle))
            {
                return handle;
            }
        }

        return 0;
    }

    [DllImport(Library, EntryPoint = "libraw_init")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint Create(uint flags);

    [DllImport(Library, EntryPoint = "libraw_open_file", CharSet = CharSet.Ansi, BestFitMapping = false, ThrowOnUnmappableChar = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int OpenFile(nint raw, [MarshalAs(UnmanagedType.LPUTF8Str)] string path);

    [DllImport(Library, EntryPoint = "libraw_unpack")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Unpack(nint raw);

    [DllImport(Library, EntryPoint = "libraw_close")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern void Close(nint raw);
}
