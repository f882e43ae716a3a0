namespace SensorLab.Planning.Plans;

/// <summary>How long things take, in seconds: ours, from shooting at an unhurried pace with a remote control.</summary>
internal static class ShootingPace
{
    public const double Frame = 2;

    public const double DialTurn = 3;

    public const double IsoChange = 6;

    /// <summary>To find the edge of the meter's zero.</summary>
    public const double Trim = 40;

    public const double LightMove = 60;

    public const double Filter = 45;

    /// <summary>What a light step is worth avoiding where shutter times reach without it: no minute of the shoot, but a filter to own, and one more thing that can be forgotten.</summary>
    public const double LightStepReluctance = 150;

    public const double OtherLight = 180;

    public const double Look = 15;

    public const double Cap = 30;
}
