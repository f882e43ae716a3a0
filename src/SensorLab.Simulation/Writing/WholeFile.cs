namespace SensorLab.Simulation.Writing;

/// <summary>Files that are there whole or not at all.</summary>
internal static class WholeFile
{
    /// <summary>Writes beside the target and moves the finished file over it.</summary>
    public static void Write(string path, ReadOnlySpan<byte> bytes)
    {
        string partial = path + ".partial";
        try
        {
            using (FileStream stream = File.Create(partial))
            {
                stream.Write(bytes);
            }

            File.Move(partial, path, overwrite: true);
        }
        catch
        {
            File.Delete(partial);
            throw;
        }
    }
}
