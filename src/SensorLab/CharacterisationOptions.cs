using SensorLab.Measurement.Figures;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab;

/// <summary>What a user may choose when a body is characterised.</summary>
public sealed record CharacterisationOptions
{
    private const double ThirdOfAStopEv = 1.0 / 3.0;

    /// <summary>How middle grey is defined; null for the metered frames, or for a finished profile's own way.</summary>
    public GreyMethod? Grey { get; init; }

    /// <summary>The meter's step in EV, above 0; null for a third of a stop, or for a finished profile's own step.</summary>
    public double? MeterStepEv { get; init; }

    /// <summary>SNR criteria beside 40, 20, 10, 4 and 1.</summary>
    public IReadOnlyList<double> SnrCriteria { get; init; } = [];

    /// <summary>The size the picture is delivered at; null for none.</summary>
    public Delivery? Delivery { get; init; }

    /// <summary>The region to measure; null to have it found.</summary>
    public MeasuredRegion? Region { get; init; }

    /// <summary>Where the spot meter looks, in photosites from the active area's top left; null for the frame's centre.</summary>
    public (int X, int Y)? Spot { get; init; }

    /// <summary>Levels measured at once, 1 or more.</summary>
    public int Jobs { get; init; } = Environment.ProcessorCount;

    /// <summary>How middle grey is defined in a frame set.</summary>
    internal GreyMethod GreyInFrames => Grey ?? GreyMethod.Metered;

    /// <summary>The meter's step in a frame set, in EV.</summary>
    internal double MeterStepInFramesEv => MeterStepEv ?? ThirdOfAStopEv;

    /// <summary>The standard criteria and those beside them, in falling order.</summary>
    internal IReadOnlyList<double> AllSnrCriteria => [.. IsoOptions.StandardCriteria.Concat(SnrCriteria).Distinct().OrderDescending()];
}
