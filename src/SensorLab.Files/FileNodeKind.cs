namespace SensorLab.Files;

/// <summary>What a path leads to.</summary>
public enum FileNodeKind
{
    /// <summary>A plain file.</summary>
    Plain,

    /// <summary>A folder.</summary>
    Folder,

    /// <summary>A named pipe.</summary>
    Pipe,

    /// <summary>A device, of characters or of blocks.</summary>
    Device,

    /// <summary>A socket.</summary>
    Socket,
}
