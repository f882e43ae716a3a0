using System.Runtime.InteropServices;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>Owns one libraw_data_t and the counter of its data errors.</summary>
internal sealed unsafe class LibRawHandle : SafeHandle
{
    private readonly LibRawLibrary _library;
    private readonly int* _dataErrors;

    /// <summary>Takes over what libraw_init gave.</summary>
    /// <param name="library">The library that it belongs to.</param>
    /// <param name="data">The libraw_data_t, not 0.</param>
    public LibRawHandle(LibRawLibrary library, nint data)
        : base(0, ownsHandle: true)
    {
        _library = library;
        _dataErrors = (int*)NativeMemory.AllocZeroed(sizeof(int));
        SetHandle(data);
        library.CountDataErrors(data, _dataErrors);
    }

    /// <inheritdoc/>
    public override bool IsInvalid => handle == 0;

    /// <summary>The library that the decoder belongs to.</summary>
    public LibRawLibrary Library => _library;

    /// <summary>The libraw_data_t; valid while this handle is open and referenced.</summary>
    public nint Data => IsClosed ? throw new ObjectDisposedException(nameof(LibRawHandle)) : handle;

    /// <summary>Damaged places that LibRaw met while decoding, over which it goes on without an error.</summary>
    public int DataErrors => IsClosed ? throw new ObjectDisposedException(nameof(LibRawHandle)) : *_dataErrors;

    /// <inheritdoc/>
    protected override bool ReleaseHandle()
    {
        _library.Close(handle);
        NativeMemory.Free(_dataErrors);
        return true;
    }
}
