namespace SensorLab.Planning.Plans;

/// <summary>A document is not a plan that this library can read.</summary>
/// <param name="reason">What is wrong, in one sentence without the file's name.</param>
/// <param name="innerException">The cause, where there is one.</param>
public sealed class PlanFormatException(string reason, Exception? innerException = null) : Exception(reason, innerException)
{
    /// <summary>What the user can do.</summary>
    public string Remedy { get; } = "Name the plan.json that sensorlab plan wrote.";
}
