using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Model;

/// <summary>Level records of one channel without pixels behind them.</summary>
internal static class MadeUpLevels
{
    public const double BlackDn = 512;

    public static ObservedLevel Lit(double seconds, double meanDn, double pixelVarianceDn2, double clipped = 0, int highestCode = 0, string role = "bracket", double? spotDn = null, int frames = 2) => new(
        new LevelRecord
        {
            Role = role,
            ExposureSeconds = seconds,
            Frames = frames,
            PixelsPerChannel = 10_000,
            RowsPerChannel = 100,
            Channels = [Channel("Y", meanDn, pixelVarianceDn2, clipped, highestCode, spotDn)],
        },
        Channel("Y", meanDn, pixelVarianceDn2, clipped, highestCode, spotDn));

    public static LevelChannel Channel(string name, double meanDn, double pixelVarianceDn2, double clipped = 0, int highestCode = 0, double? spotDn = null) => new()
    {
        Name = name,
        MeanDn = meanDn,
        MeanUncertaintyDn = 0.1,
        SpotMeanDn = spotDn,
        SpotMeanUncertaintyDn = spotDn is null ? null : 0.5,
        FrameMeansDn = [meanDn, meanDn],
        ClippedFraction = clipped,
        HighestCodeDn = highestCode,
        TemporalVarianceDn2 = pixelVarianceDn2,
        TemporalParts = Parts(pixelVarianceDn2),
        FixedPatternParts = Parts(1),
        FixedPatternVarianceDn2 = 1,
    };

    private static VarianceParts Parts(double pixelDn2) => new()
    {
        PixelDn2 = pixelDn2,
        PixelUncertaintyDn2 = 0.01 * pixelDn2,
        RowDn2 = 0,
        RowUncertaintyDn2 = 0.001,
        ColumnDn2 = 0,
        ColumnUncertaintyDn2 = 0.001,
    };
}
