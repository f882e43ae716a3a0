namespace SensorLab.Cli.Presentation;

/// <summary>Progress told where it happens: no later thread that may tell it after the work has ended.</summary>
internal sealed class ImmediateProgress<T>(Action<T> report) : IProgress<T>
{
    public void Report(T value) => report(value);
}
