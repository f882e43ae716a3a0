namespace SensorLab.Assignment;

/// <summary>A frame with its use.</summary>
/// <param name="File">Path inside the tree with forward slashes.</param>
/// <param name="Use">What it serves for.</param>
/// <param name="Iso">Its ISO; null where the file does not say.</param>
/// <param name="IsSure">Whether this is beyond doubt; what is not has use none and a question.</param>
/// <param name="Why">What speaks for it, in a sentence.</param>
public sealed record AssignedFrame(string File, FrameUse Use, int? Iso, bool IsSure, string Why)
{
    /// <summary>The plan's step that it is taken for, from 1; null where no plan was given, or for a frame that it does not hold.</summary>
    public int? Step { get; init; }

    /// <summary>Whether it was shot at a setting, or in a light, that the plan has not.</summary>
    public bool IsUnplanned { get; init; }
}
