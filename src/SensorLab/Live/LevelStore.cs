using System.Security.Cryptography;
using System.Text;
using SensorLab.Files;
using SensorLab.Pixels;
using SensorLab.Pixels.Field;
using SensorLab.Sets;

namespace SensorLab.Live;

/// <summary>Levels measured in an earlier run of the program, a file each: a set that is opened again is not measured again.</summary>
/// <remarks>
/// A file counts only for the build that wrote it, for frames of the same names, lengths, times and pixels, and where its own hash
/// is right. What cannot be read is measured anew, and what cannot be written is not kept: the set is none the worse.
/// </remarks>
/// <param name="folder">Where they lie; made when the first is kept.</param>
internal sealed class LevelStore(string folder)
{
    private const int MostBytes = 64_000_000;

    /// <summary>What the program measures with: its builds differ by it.</summary>
    public static readonly string Build = string.Join(' ', new[] { typeof(LevelStore), typeof(LevelStatistics), typeof(RawFiles.RawFileOpener) }.Select(t => t.Module.ModuleVersionId));

    /// <summary>A level's statistics and its frames' SHA-256; null where none are kept, or none that count.</summary>
    /// <param name="key">All that they hang on.</param>
    /// <param name="level">The level as it is now.</param>
    /// <param name="area">Where it is measured.</param>
    public (LevelStatistics Statistics, IReadOnlyList<string> Hashes)? Read(string key, Level level, MeasurementArea area)
    {
        try
        {
            string path = PathOf(key);
            if (!File.Exists(path))
            {
                return null;
            }

            byte[] bytes = PlainFile.ReadAllBytes(path, MostBytes);
            int end = bytes.Length - SHA256.HashSizeInBytes;
            if (end < 0 || !SHA256.HashData(bytes.AsSpan(0, end)).AsSpan().SequenceEqual(bytes.AsSpan(end)))
            {
                return null;
            }

            using var from = new BinaryReader(new MemoryStream(bytes, 0, end));
            if (from.ReadString() != Build || from.ReadString() != key)
            {
                return null;
            }

            string[] hashes = [.. Enumerable.Range(0, from.ReadInt32()).Select(_ => from.ReadString())];
            return (LevelStatistics.Read(from, level, area), hashes);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or FormatException)
        {
            return null;
        }
    }

    /// <summary>Keeps a level.</summary>
    /// <param name="key">All that it hangs on.</param>
    /// <param name="statistics">Its statistics.</param>
    /// <param name="hashes">The SHA-256 of each of its frames.</param>
    public void Keep(string key, LevelStatistics statistics, IReadOnlyList<string> hashes)
    {
        var bytes = new MemoryStream();
        using (var to = new BinaryWriter(bytes, Encoding.UTF8, leaveOpen: true))
        {
            to.Write(Build);
            to.Write(key);
            to.Write(hashes.Count);
            foreach (string hash in hashes)
            {
                to.Write(hash);
            }

            statistics.Write(to);
        }

        bytes.Write(SHA256.HashData(bytes.GetBuffer().AsSpan(0, (int)bytes.Length)));
        try
        {
            Directory.CreateDirectory(folder);
            WholeFile.Write(PathOf(key), bytes.ToArray());
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // A full disk: the level is measured again where the set is opened again.
        }
    }

    private string PathOf(string key) => Path.Combine(folder, Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(key)))[..32] + ".level");
}
