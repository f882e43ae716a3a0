namespace SensorLab.Assignment;

/// <summary>What a frame is taken for while a card is read.</summary>
internal sealed class Reading(SampledFrame frame)
{
    public SampledFrame Frame { get; } = frame;

    /// <summary>The frame with its light; null for one that was set aside before its light was looked at.</summary>
    public SeenFrame? Seen { get; set; }

    /// <summary>The plan's frame that it is taken for.</summary>
    public PlanSlot? Slot { get; set; }

    /// <summary>Whether it may show a plain field with some texture, or a picture with little.</summary>
    public bool IsTextureDoubtful { get; set; }

    /// <summary>What it serves for; null while that is open.</summary>
    public FrameUse? Use { get; private set; }

    public bool IsSure { get; private set; } = true;

    public string Why { get; private set; } = string.Empty;

    /// <summary>Whether the plan has neither its setting nor its light.</summary>
    public bool IsUnplanned { get; set; }

    public bool IsOpen => Use is null;

    /// <summary>Whether it was taken for a frame of the set in this role.</summary>
    public bool Is(Frames.FrameRole role) => Use?.Role == role;

    /// <summary>Takes it for something, beyond doubt.</summary>
    public void Take(FrameUse use, string why) => (Use, IsSure, Why) = (use, true, why);

    /// <summary>Leaves it unassigned, since it is in doubt.</summary>
    public void Doubt(string why) => (Use, IsSure, Why) = (FrameUse.None, false, why);

    public AssignedFrame ToAssigned() => new(Frame.File, Use ?? FrameUse.None, Frame.Raw.Metadata.Iso, IsSure && Use is not null, Why) { Step = Slot?.Step.Number, IsUnplanned = IsUnplanned };
}
