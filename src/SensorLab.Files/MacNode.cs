using System.Runtime.InteropServices;

namespace SensorLab.Files;

/// <summary>A node as macOS tells it.</summary>
/// <remarks>
/// <c>stat</c> fills a structure that begins with the device (32 bits), the mode and the links (16 bits each) and the node's
/// number (64 bits); on processors of the older kind that form has a name of its own. Before it is believed, it must tell two
/// nodes whose kinds are known: the root and the null device. Where it does not, nothing is told.
/// </remarks>
internal static partial class MacNode
{
    private const int BufferBytes = 512;
    private const int ModeOffset = 4;
    private const int NumberOffset = 8;

    private static readonly Lazy<bool> IsProven = new(() => Read("/") is { Kind: FileNodeKind.Folder } && Read("/dev/null") is { Kind: FileNodeKind.Device });

    /// <summary>What a path leads to.</summary>
    /// <param name="path">The path.</param>
    /// <returns>The node; null where there is none, or the system's answer is not to be trusted.</returns>
    public static FileNode? Of(string path) => IsProven.Value ? Read(path) : null;

    private static FileNode? Read(string path)
    {
        Span<byte> node = stackalloc byte[BufferBytes];
        ref byte start = ref MemoryMarshal.GetReference(node);
        int status = RuntimeInformation.ProcessArchitecture == Architecture.X64 ? StatOfOlder(path, ref start) : Stat(path, ref start);
        return status != 0
            ? null
            : new FileNode(FileNode.KindOf(MemoryMarshal.Read<ushort>(node[ModeOffset..])), MemoryMarshal.Read<uint>(node), MemoryMarshal.Read<ulong>(node[NumberOffset..]));
    }

    [LibraryImport("/usr/lib/libSystem.dylib", EntryPoint = "stat", StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Stat(string path, ref byte buffer);

    [LibraryImport("/usr/lib/libSystem.dylib", EntryPoint = "stat$INODE64", StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int StatOfOlder(string path, ref byte buffer);
}
