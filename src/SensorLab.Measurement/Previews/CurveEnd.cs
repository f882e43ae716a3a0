using SensorLab.Profiles;

namespace SensorLab.Measurement.Previews;

/// <summary>Where a channel's tone curve reaches its end.</summary>
/// <param name="Ev">The figure, or a bound where the bracket ends first; the uncertainty of middle grey not included.</param>
/// <param name="EndCode">The code that is not passed; null where it was not reached.</param>
internal sealed record CurveEnd(Figure Ev, double? EndCode);
