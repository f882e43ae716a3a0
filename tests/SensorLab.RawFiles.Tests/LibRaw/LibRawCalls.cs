using SensorLab.Frames;
using SensorLab.RawFiles.LibRaw;

namespace SensorLab.RawFiles.Tests.LibRaw;

/// <summary>What the tests of LibRaw have in common.</summary>
internal static class LibRawCalls
{
    /// <summary>The installed library; skips the test where there is none.</summary>
    public static LibRawLibrary RequireLibrary()
    {
        Assert.SkipWhen(LibRawLibrary.Installed is null, "LibRaw (apt-get install libraw20) is not installed.");
        return LibRawLibrary.Installed!;
    }

    /// <summary>Reads a mosaic to its end.</summary>
    public static ushort[] ReadAll(IMosaicReader reader)
    {
        ushort[] codes = new ushort[reader.Frame.Layout.WidthPixels * reader.Frame.Layout.HeightPixels];
        int step = reader.PreferredRows * reader.Frame.Layout.WidthPixels;
        for (int start = 0; start < codes.Length; start += step)
        {
            reader.ReadRows(codes.AsSpan(start, Math.Min(step, codes.Length - start)));
        }

        return codes;
    }

    /// <summary>Writes a file into a folder of its own and removes both afterwards.</summary>
    public static T WithFile<T>(ReadOnlySpan<byte> content, string name, Func<string, T> use)
    {
        string folder = Directory.CreateTempSubdirectory("sensorlab-").FullName;
        try
        {
            string path = Path.Combine(folder, name);
            File.WriteAllBytes(path, content);
            return use(path);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
