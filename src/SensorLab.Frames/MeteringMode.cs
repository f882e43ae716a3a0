namespace SensorLab.Frames;

/// <summary>How the camera metered, as in Exif 2.32, tag MeteringMode.</summary>
public enum MeteringMode
{
    /// <summary>Not said, or none of the others.</summary>
    Unknown,

    /// <summary>The plain average.</summary>
    Average,

    /// <summary>The average with more weight in the centre.</summary>
    CentreWeighted,

    /// <summary>One spot: what the method needs.</summary>
    Spot,

    /// <summary>Several spots.</summary>
    MultiSpot,

    /// <summary>A pattern of zones.</summary>
    Pattern,

    /// <summary>A part of the frame.</summary>
    Partial,
}
