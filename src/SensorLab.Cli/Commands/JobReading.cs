using SensorLab.Cli.Presentation;
using SensorLab.Debrief;

namespace SensorLab.Cli.Commands;

/// <summary>How the commands that read a job's raw files wait for them.</summary>
internal static class JobReading
{
    /// <summary>Reads, shows how far it is, and says why nothing could be read: in the document, too, where one is asked for.</summary>
    /// <param name="terminal">Where to show it.</param>
    /// <param name="isJson">Whether a document is asked for.</param>
    /// <param name="read">Reads the files; it is given whom to tell after each.</param>
    /// <exception cref="JobRefusedException">No raw file can be read.</exception>
    public static async Task<T> RunAsync<T>(Terminal terminal, bool isJson, Func<IProgress<CharacterisationProgress>, Task<T>> read)
    {
        try
        {
            return await ProgressDisplay.ShowAsync(terminal, "Reading frames", show => read(new ImmediateProgress<CharacterisationProgress>(p => show(p.FramesDone, p.FramesTotal))));
        }
        catch (JobRefusedException refused) when (isJson)
        {
            FindingsDocument.Write(terminal.Output, refused.Findings);
            throw;
        }
    }
}
