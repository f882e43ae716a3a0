namespace SensorLab.Reports.Charts;

/// <summary>A criterion on the SNR chart.</summary>
/// <param name="Snr">The criterion: total SNR.</param>
/// <param name="Label">What is printed on the line.</param>
/// <param name="Crossing">Where total SNR falls to it; null where unknown.</param>
/// <param name="Emphasised">Whether it is the criterion that is meant where none is named.</param>
/// <param name="NeverReached">Whether the whole curve of total SNR lies below it.</param>
internal sealed record CriterionLine(double Snr, string Label, EvMark? Crossing, bool Emphasised, bool NeverReached)
{
    /// <summary>The line's words.</summary>
    public string Words => this switch
    {
        { NeverReached: true } => $"{Label}: not reached",
        { Crossing: null } => $"{Label}: {EvText.NotMeasured}",
        { Crossing: { IsBound: true } } => $"{Label}: {EvText.Mark(Crossing)} EV",
        _ => $"{Label} at {EvText.Mark(Crossing)} EV",
    };
}
