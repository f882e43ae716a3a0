namespace SensorLab.Frames;

/// <summary>What a frame serves for in a frame set; it is the name of the folder that holds it.</summary>
public enum FrameRole
{
    /// <summary>No light: black level and read noise.</summary>
    Dark,

    /// <summary>The exposure at which the camera's own spot meter reads zero on the field: middle grey.</summary>
    Metered,

    /// <summary>An exposure around the metered one.</summary>
    Bracket,

    /// <summary>A metered neutral field under another, named light: channel ratios only.</summary>
    Light,
}
