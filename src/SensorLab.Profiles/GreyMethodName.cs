namespace SensorLab.Profiles;

/// <summary>What defines middle grey, by the names that documents and the command line have for it.</summary>
public static class GreyMethodName
{
    /// <summary>The exposure at which the camera's own spot meter reads zero on the field.</summary>
    public const string Metered = "metered";

    /// <summary>ISO 12232's saturation-based speed.</summary>
    public const string Saturation = "saturation";
}
