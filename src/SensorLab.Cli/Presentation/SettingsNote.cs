namespace SensorLab.Cli.Presentation;

/// <summary>Says what a command takes from the user's settings: nothing is taken in silence.</summary>
internal static class SettingsNote
{
    /// <summary>The line, where anything was taken.</summary>
    /// <param name="terminal">Where to.</param>
    /// <param name="taken">Names with their words.</param>
    public static void Write(Terminal terminal, IReadOnlyList<string> taken)
    {
        if (taken.Count > 0)
        {
            terminal.Error.WriteLine($"sensorlab: from your settings: {string.Join(", ", taken)}");
        }
    }
}
