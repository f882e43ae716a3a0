using System.Runtime.InteropServices;

namespace SensorLab.Files;

/// <summary>What a path leads to, links followed: its kind, and which one it is whatever it is called.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Device">The file system's number.</param>
/// <param name="Number">The node's number in its file system.</param>
/// <remarks>
/// The base library tells neither. Linux is asked by <c>statx</c>, whose buffer has one layout on every processor; macOS by
/// <see cref="MacNode"/>. Windows is not asked: there <see cref="PlainFile"/> goes by what opening tells, and inputs are told
/// by their paths alone.
/// </remarks>
public readonly partial record struct FileNode(FileNodeKind Kind, ulong Device, ulong Number)
{
    private const int RelativeToWorkingFolder = -100;
    private const uint TypeAndNumber = 0x1 | 0x100;
    private const int BufferBytes = 256;
    private const int ModeOffset = 28;
    private const int NumberOffset = 32;
    private const int DeviceOffset = 136;
    private const int TypeMask = 0xF000;

    /// <summary>What a path leads to.</summary>
    /// <param name="path">The path.</param>
    /// <returns>The node; null where there is none, or the system does not tell.</returns>
    public static FileNode? Of(string path)
    {
        if (path.Contains('\0', StringComparison.Ordinal))
        {
            return null;
        }

        return OperatingSystem.IsLinux() ? OfLinux(path) : OperatingSystem.IsMacOS() ? MacNode.Of(path) : null;
    }

    /// <summary>The kind that a mode's type says, as every Unix has it.</summary>
    internal static FileNodeKind KindOf(int mode) => (mode & TypeMask) switch
    {
        0x1000 => FileNodeKind.Pipe,
        0x2000 or 0x6000 => FileNodeKind.Device,
        0x4000 => FileNodeKind.Folder,
        0xC000 => FileNodeKind.Socket,
        _ => FileNodeKind.Plain,
    };

    private static FileNode? OfLinux(string path)
    {
        Span<byte> node = stackalloc byte[BufferBytes];
        if (StatX(RelativeToWorkingFolder, path, 0, TypeAndNumber, ref MemoryMarshal.GetReference(node)) != 0)
        {
            return null;
        }

        FileNodeKind kind = KindOf(MemoryMarshal.Read<ushort>(node[ModeOffset..]));
        return new FileNode(kind, MemoryMarshal.Read<ulong>(node[DeviceOffset..]), MemoryMarshal.Read<ulong>(node[NumberOffset..]));
    }

    [LibraryImport("libc", EntryPoint = "statx", StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int StatX(int folder, string path, int flags, uint mask, ref byte buffer);
}
