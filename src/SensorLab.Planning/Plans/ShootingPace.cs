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

    /// <summary>To name the frames of a light step in frames.csv afterwards: no minute of the shoot, but worth avoiding.</summary>
    public const double LightStepNaming = 150;

    public const double OtherLight = 180;

    public const double Look = 15;

    public const double Cap = 30;
}
