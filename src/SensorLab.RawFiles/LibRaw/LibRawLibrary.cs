using System.Runtime.InteropServices;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>LibRaw's C interface, bound at run time, so that nothing needs the library until a vendor file turns up.</summary>
/// <remarks>LibRaw API documentation, "C API"; the re-entrant build (libraw_r) is asked for first.</remarks>
internal sealed unsafe class LibRawLibrary
{
    /// <summary>Version 0.20.0 as libraw_versionNumber tells it: older ones order their structures differently.</summary>
    private const int OldestVersion = 20 << 8;

    /// <summary>LIBRAW_OPTIONS_NO_MEMERR_CALLBACK: no messages on the standard error stream.</summary>
    private const uint NoMemoryErrorMessages = 1;

    private const int OldestSoName = 20;
    private const int NewestSoName = 40;

    /// <summary>Where the system keeps libraries, folders that only administrators write to, and last the program's own.</summary>
    private static readonly string[] Folders =
    [
        .. OperatingSystem.IsLinux() ? ["/usr/lib/x86_64-linux-gnu", "/usr/lib/aarch64-linux-gnu", "/usr/lib64", "/usr/lib", "/usr/local/lib"]
            : OperatingSystem.IsMacOS() ? (string[])["/opt/homebrew/lib", "/opt/local/lib", "/usr/local/lib"]
            : [],
        AppContext.BaseDirectory,
    ];

    private static readonly Lazy<LibRawLibrary?> Shared = new(() => TryLoad(LoadOrZero));

    private readonly delegate* unmanaged[Cdecl]<uint, nint> _init;
    private readonly delegate* unmanaged[Cdecl]<nint, void> _close;
    private readonly delegate* unmanaged[Cdecl]<nint, nint, int> _openFile;
    private readonly delegate* unmanaged[Cdecl]<nint, nint, nuint, int> _openBuffer;
    private readonly delegate* unmanaged[Cdecl]<nint, int> _unpack;
    private readonly delegate* unmanaged[Cdecl]<nint, int> _rawToImage;
    private readonly delegate* unmanaged[Cdecl]<nint, int> _unpackThumbnail;
    private readonly delegate* unmanaged[Cdecl]<nint, int*, nint> _makeThumbnail;
    private readonly delegate* unmanaged[Cdecl]<nint, void> _clearThumbnail;
    private readonly delegate* unmanaged[Cdecl]<nint, int, int, int> _colour;
    private readonly delegate* unmanaged[Cdecl]<nint, int> _rawWidth;
    private readonly delegate* unmanaged[Cdecl]<nint, int> _rawHeight;
    private readonly delegate* unmanaged[Cdecl]<nint, int> _maximum;
    private readonly delegate* unmanaged[Cdecl]<nint, nint> _parameters;
    private readonly delegate* unmanaged[Cdecl]<nint, nint> _other;
    private readonly delegate* unmanaged[Cdecl]<nint, nint> _decoderName;
    private readonly delegate* unmanaged[Cdecl]<nint, delegate* unmanaged[Cdecl]<void*, byte*, long, void>, void*, void> _setDataErrorHandler;

    private LibRawLibrary(nint library)
    {
        _init = (delegate* unmanaged[Cdecl]<uint, nint>)Export("init");
        _close = (delegate* unmanaged[Cdecl]<nint, void>)Export("close");
        _openFile = (delegate* unmanaged[Cdecl]<nint, nint, int>)Export(OperatingSystem.IsWindows() ? "open_wfile" : "open_file");
        _openBuffer = (delegate* unmanaged[Cdecl]<nint, nint, nuint, int>)Export("open_buffer");
        _unpack = (delegate* unmanaged[Cdecl]<nint, int>)Export("unpack");
        _rawToImage = (delegate* unmanaged[Cdecl]<nint, int>)Export("raw2image");
        _unpackThumbnail = (delegate* unmanaged[Cdecl]<nint, int>)Export("unpack_thumb");
        _makeThumbnail = (delegate* unmanaged[Cdecl]<nint, int*, nint>)Export("dcraw_make_mem_thumb");
        _clearThumbnail = (delegate* unmanaged[Cdecl]<nint, void>)Export("dcraw_clear_mem");
        _colour = (delegate* unmanaged[Cdecl]<nint, int, int, int>)Export("COLOR");
        _rawWidth = (delegate* unmanaged[Cdecl]<nint, int>)Export("get_raw_width");
        _rawHeight = (delegate* unmanaged[Cdecl]<nint, int>)Export("get_raw_height");
        _maximum = (delegate* unmanaged[Cdecl]<nint, int>)Export("get_color_maximum");
        _parameters = (delegate* unmanaged[Cdecl]<nint, nint>)Export("get_iparams");
        _other = (delegate* unmanaged[Cdecl]<nint, nint>)Export("get_imgother");
        _decoderName = (delegate* unmanaged[Cdecl]<nint, nint>)Export("unpack_function_name");
        _setDataErrorHandler = (delegate* unmanaged[Cdecl]<nint, delegate* unmanaged[Cdecl]<void*, byte*, long, void>, void*, void>)Export("set_dataerror_handler");
        Version = ((delegate* unmanaged[Cdecl]<int>)Export("versionNumber"))();
        Layout = Version < OldestVersion ? null : LibRawLayout.Prove(this);

        nint Export(string name) => NativeLibrary.GetExport(library, "libraw_" + name);
    }

    /// <summary>The installed library; null where there is none, or none that is usable.</summary>
    public static LibRawLibrary? Installed => Shared.Value;

    /// <summary>The version as libraw_versionNumber tells it: major &lt;&lt; 16 | minor &lt;&lt; 8 | patch.</summary>
    public int Version { get; }

    /// <summary>Where this build keeps what the C interface has no call for; null where the proof failed.</summary>
    public LibRawLayout? Layout { get; }

    /// <summary>The files that the library may be, newest first: a bare name would be looked for wherever the environment points.</summary>
    public static IEnumerable<string> CandidateFiles()
    {
        IEnumerable<int> versions = Enumerable.Range(OldestSoName, NewestSoName - OldestSoName + 1).Reverse();
        string[] names = OperatingSystem.IsWindows() ? ["libraw_r.dll", "libraw.dll", "raw_r.dll"]
            : OperatingSystem.IsMacOS() ? [.. versions.Select(n => $"libraw_r.{n}.dylib"), "libraw_r.dylib"]
            : [.. versions.Select(n => $"libraw_r.so.{n}"), "libraw_r.so"];
        return names.SelectMany(name => Folders.Select(folder => Path.Combine(folder, name)));
    }

    /// <summary>Loads the newest library whose layout can be proven.</summary>
    /// <param name="load">Loads a library from a file; 0 where that is none.</param>
    /// <returns>The library, or null where no candidate loads and proves itself.</returns>
    public static LibRawLibrary? TryLoad(Func<string, nint> load)
    {
        foreach (string file in CandidateFiles())
        {
            nint library = load(file);
            if (library == 0)
            {
                continue;
            }

            try
            {
                LibRawLibrary bound = new(library);
                if (bound.Layout is not null)
                {
                    return bound;
                }
            }
            catch (EntryPointNotFoundException)
            {
                // A build without one of the calls: an older candidate may have them all.
            }
        }

        return null;
    }

    /// <summary>A new decoder; each reader has its own.</summary>
    /// <exception cref="InsufficientMemoryException">LibRaw cannot allocate it.</exception>
    public LibRawHandle Create()
    {
        nint data = _init(NoMemoryErrorMessages);
        return data == 0
            ? throw new InsufficientMemoryException("LibRaw cannot allocate its decoder.")
            : new LibRawHandle(this, data);
    }

    /// <summary>libraw_open_file, with the path as the system wants it.</summary>
    public LibRawStatus OpenFile(nint data, string path)
    {
        nint text = OperatingSystem.IsWindows() ? Marshal.StringToHGlobalUni(path) : Marshal.StringToCoTaskMemUTF8(path);
        try
        {
            return (LibRawStatus)_openFile(data, text);
        }
        finally
        {
            if (OperatingSystem.IsWindows())
            {
                Marshal.FreeHGlobal(text);
            }
            else
            {
                Marshal.FreeCoTaskMem(text);
            }
        }
    }

    /// <summary>libraw_open_buffer: the buffer must stay where it is until the decoder is closed.</summary>
    public LibRawStatus OpenBuffer(nint data, nint buffer, int length) => (LibRawStatus)_openBuffer(data, buffer, (nuint)length);

    /// <summary>libraw_unpack.</summary>
    public LibRawStatus Unpack(nint data) => (LibRawStatus)_unpack(data);

    /// <summary>libraw_raw2image.</summary>
    public LibRawStatus RawToImage(nint data) => (LibRawStatus)_rawToImage(data);

    /// <summary>libraw_unpack_thumb.</summary>
    public LibRawStatus UnpackThumbnail(nint data) => (LibRawStatus)_unpackThumbnail(data);

    /// <summary>libraw_dcraw_make_mem_thumb; 0 on an error.</summary>
    public nint MakeThumbnail(nint data)
    {
        int* status = stackalloc int[1];
        nint thumbnail = _makeThumbnail(data, status);
        return *status == 0 ? thumbnail : 0;
    }

    /// <summary>libraw_dcraw_clear_mem.</summary>
    public void ClearThumbnail(nint thumbnail) => _clearThumbnail(thumbnail);

    /// <summary>libraw_COLOR: the filter's index at a photosite of the visible area.</summary>
    public int ColourAt(nint data, int row, int column) => _colour(data, row, column);

    /// <summary>libraw_get_raw_width.</summary>
    public int RawWidth(nint data) => _rawWidth(data);

    /// <summary>libraw_get_raw_height.</summary>
    public int RawHeight(nint data) => _rawHeight(data);

    /// <summary>libraw_get_color_maximum.</summary>
    public int Maximum(nint data) => _maximum(data);

    /// <summary>libraw_get_iparams.</summary>
    public nint Parameters(nint data) => _parameters(data);

    /// <summary>libraw_get_imgother.</summary>
    public nint Other(nint data) => _other(data);

    /// <summary>libraw_unpack_function_name: which of its decoders LibRaw takes for the file.</summary>
    public string DecoderName(nint data) => Marshal.PtrToStringUTF8(_decoderName(data)) ?? "";

    /// <summary>libraw_set_dataerror_handler with a handler that counts.</summary>
    public void CountDataErrors(nint data, int* counter) => _setDataErrorHandler(data, &CountDataError, counter);

    /// <summary>libraw_close.</summary>
    public void Close(nint data) => _close(data);

    [UnmanagedCallersOnly(CallConvs = [typeof(System.Runtime.CompilerServices.CallConvCdecl)])]
    private static void CountDataError(void* counter, byte* file, long offset) => ++*(int*)counter;

    private static nint LoadOrZero(string file) => File.Exists(file) && NativeLibrary.TryLoad(file, out nint library) ? library : 0;
}
