namespace SensorLab.Measurement.Sets.Checks;

/// <summary>Leaves out the frames that cannot serve, with a finding for each reason.</summary>
internal interface IFrameSieve
{
    SiftedFrames Sift(IReadOnlyList<SetFrame> frames);
}
