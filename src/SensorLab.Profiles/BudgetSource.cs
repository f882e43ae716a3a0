namespace SensorLab.Profiles;

/// <summary>What a part of an uncertainty comes from.</summary>
public static class BudgetSource
{
    /// <summary>Noise of the frames, and the pixels measured being a sample of all.</summary>
    public const string Sampling = "sampling";

    /// <summary>Where inside its zero the meter was read.</summary>
    public const string Meter = "meter";

    /// <summary>Exposure times: their scatter, and what is off at the shortest.</summary>
    public const string Shutter = "shutter";

    /// <summary>The lamp between metering and frames.</summary>
    public const string Light = "light";

    /// <summary>The diaphragm, closed anew for every frame.</summary>
    public const string Aperture = "aperture";

    /// <summary>The room's temperature.</summary>
    public const string Temperature = "temperature";
}
