using SensorLab.Measurement.Findings.Black;
using SensorLab.Measurement.Findings.Codes;
using SensorLab.Measurement.Findings.Isos;
using SensorLab.Measurement.Findings.Light;
using SensorLab.Measurement.Findings.Response;
using SensorLab.Measurement.Findings.Target;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings;

/// <summary>Runs every check of the pixels' statistics.</summary>
public static class IsoChecks
{
    private static readonly IIsoCheck[] ForOne =
    [
        new LightFlickerCheck(), new LightBandedCheck(), new LightDriftCheck(), new ExposureInexactCheck(), new ResponseNonlinearCheck(), new ResponseKneeCheck(),
        new TargetUnevenCheck(), new PixelsHotCheck(), new FieldGlowingCheck(), new BlackDriftCheck(), new DarkLitCheck(), new DarkCurrentCheck(),
        new NoiseBandedCheck(), new MeteredDisagreementCheck(), new ModelRejectedCheck(), new LevelsDeclaredCheck(),
        new RawFilteredCheck(), new TargetTexturedCheck(), new CodeGapCheck(), new CompandedCheck(), new DepthMixedCheck(), new BlackClippedCheck(),
    ];

    private static readonly IIsoSeriesCheck[] ForAll = [new LinesDeadCheck(), new GainSharedCheck(), new IsoDisagreesCheck(), new IsoNoiseDisagreesCheck(), new GainSwitchCheck()];

    /// <summary>Examines the ISOs of a set.</summary>
    /// <param name="isos">Evidence of each ISO, in rising order.</param>
    /// <returns>What was found.</returns>
    public static IReadOnlyList<Finding> Examine(IReadOnlyList<IsoEvidence> isos) =>
        [.. isos.SelectMany(iso => ForOne.SelectMany(check => check.Examine(iso))), .. ForAll.SelectMany(check => check.Examine(isos))];
}
