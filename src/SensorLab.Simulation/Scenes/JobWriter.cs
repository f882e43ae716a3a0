using SensorLab.Files;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Scenes;

/// <summary>Writes a simulated assignment as a folder of DNG files.</summary>
public static class JobWriter
{
    /// <summary>Writes it; folders in names are made.</summary>
    /// <param name="body">The body.</param>
    /// <param name="shots">Its frames.</param>
    /// <param name="folder">The folder.</param>
    /// <exception cref="IOException">A file could not be written.</exception>
    public static void Write(VirtualBody body, IReadOnlyList<JobShot> shots, string folder)
    {
        var camera = new VirtualCamera(body);
        Parallel.ForEach(shots, shot =>
        {
            string path = Path.Combine(folder, shot.File);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            WholeFile.Write(path, shot.Encode(camera));
        });
    }
}
