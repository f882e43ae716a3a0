using SensorLab.Assignment;
using SensorLab.Frames;

namespace SensorLab.Confirms;

/// <summary>A frame of a job.</summary>
/// <param name="File">Path inside the job's folder.</param>
/// <param name="Frame">The frame.</param>
/// <param name="Role">What it serves for; null for an everyday picture.</param>
/// <param name="Sample">A small sample of its photosites; null for another sensor, for an ISO that the profile lacks, and for a frame that the user set aside.</param>
internal sealed record JobFrame(string File, RawFrame Frame, FrameRole? Role, FrameSample? Sample)
{
    /// <summary>Steps of an exposure time in a stop, within which a shutter's times are one.</summary>
    private const double StepsPerStop = 24;

    /// <summary>Whether its photosites told its role, and nobody said it.</summary>
    public bool IsToldByPixels { get; init; }

    /// <summary>What was dialled; null where the file does not say.</summary>
    public (int Iso, double SecondsStep, double? ApertureFNumber)? Setting => Frame.Metadata is { Iso: { } iso, ExposureSeconds: { } seconds }
        ? (iso, Math.Round(Math.Log2(seconds) * StepsPerStop), Frame.Metadata.ApertureFNumber)
        : null;
}
