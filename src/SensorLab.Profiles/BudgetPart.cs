namespace SensorLab.Profiles;

/// <summary>One named part of a figure's uncertainty.</summary>
/// <param name="Source">What it comes from, one of <see cref="BudgetSource"/>.</param>
/// <param name="StandardUncertainty">Its standard uncertainty, in the figure's unit.</param>
/// <param name="From">What tells its size, one of <see cref="BudgetOrigin"/>.</param>
public sealed record BudgetPart(string Source, double StandardUncertainty, string From);
