using System.Collections.Concurrent;
using System.Globalization;
using SensorLab.Assignment;
using SensorLab.Frames;
using SensorLab.Pixels;
using SensorLab.Pixels.Field;
using SensorLab.Sets;

namespace SensorLab.Live;

/// <summary>What was read of a folder before: frames opened, levels measured, files hashed, each under all that it hangs on.</summary>
/// <remarks>A file that was written anew has another stamp, and nothing remembered of it counts.</remarks>
/// <param name="store">What an earlier run of the program left; null for nothing, and nothing is left then.</param>
internal sealed class SetMemory(LevelStore? store = null)
{
    private readonly ConcurrentDictionary<string, OpenedFrame> _opened = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, LevelStatistics> _levels = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, string> _hashes = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, FieldMap> _maps = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, Exception> _damaged = new(StringComparer.Ordinal);

    /// <summary>Levels that were measured since the memory began, those measured again among them; not those that an earlier run left.</summary>
    public int LevelsMeasured { get; private set; }

    /// <summary>What a file is known by: its path, length and time.</summary>
    /// <param name="path">Full path.</param>
    public static string StampOf(string path)
    {
        var file = new FileInfo(path);
        return file.Exists ? string.Create(CultureInfo.InvariantCulture, $"{path}\t{file.Length}\t{file.LastWriteTimeUtc.Ticks}") : path;
    }

    /// <summary>A frame as it was opened, with its sample where one was taken.</summary>
    /// <param name="stamp">The file's stamp.</param>
    /// <param name="open">Opens it.</param>
    public OpenedFrame Opened(string stamp, Func<OpenedFrame> open) => _opened.GetOrAdd(stamp, _ => open());

    /// <summary>The coarse picture of a frame.</summary>
    /// <param name="stamp">The file's stamp.</param>
    /// <param name="draw">Draws it.</param>
    public FieldMap Map(string stamp, Func<FieldMap> draw) => _maps.GetOrAdd(stamp, _ => draw());

    /// <summary>The statistics of a level; null where it was not measured under just these circumstances.</summary>
    /// <param name="folder">The set's folder.</param>
    /// <param name="key">From <see cref="KeyOf"/>.</param>
    /// <param name="level">The level as it is now.</param>
    /// <param name="area">Where it is measured.</param>
    public LevelStatistics? Level(string folder, string key, Level level, MeasurementArea area)
    {
        if (_levels.TryGetValue(key, out LevelStatistics? known))
        {
            return known with { Level = level };
        }

        if (store?.Read(key, level, area) is not { } kept)
        {
            return null;
        }

        _levels[key] = kept.Statistics;
        foreach ((SetFrame frame, string hash) in level.Frames.Zip(kept.Hashes))
        {
            KeepHash(StampOf(Path.Combine(folder, frame.File)), hash);
        }

        return kept.Statistics;
    }

    /// <summary>Keeps a level's statistics.</summary>
    /// <param name="folder">The set's folder.</param>
    /// <param name="key">From <see cref="KeyOf"/>.</param>
    /// <param name="statistics">The statistics.</param>
    public void Keep(string folder, string key, LevelStatistics statistics)
    {
        _levels[key] = statistics;
        lock (_levels)
        {
            LevelsMeasured++;
        }

        string?[] hashes = [.. statistics.Level.Frames.Select(f => HashOf(StampOf(Path.Combine(folder, f.File))))];
        if (hashes.All(h => h is not null))
        {
            store?.Keep(key, statistics, [.. hashes.OfType<string>()]);
        }
    }

    /// <summary>All that a level's statistics hang on.</summary>
    /// <param name="folder">The set's folder.</param>
    /// <param name="level">The level.</param>
    /// <param name="area">Where it is measured.</param>
    /// <param name="darks">The dark levels that serve it; none for a dark level.</param>
    public static string KeyOf(string folder, Level level, MeasurementArea area, IEnumerable<Level> darks)
    {
        string lines = string.Join(';', area.DeadLines);
        return string.Join('\n', [.. darks.Prepend(level).Select(l => Text(folder, l)), $"{area.Region} {area.Spot} {area.FieldMissing?.ToString("R", CultureInfo.InvariantCulture)} {lines}"]);
    }

    /// <summary>A file's SHA-256, where it was taken before.</summary>
    public string? HashOf(string stamp) => _hashes.GetValueOrDefault(stamp);

    /// <summary>Keeps a file's SHA-256.</summary>
    public void KeepHash(string stamp, string hash) => _hashes[stamp] = hash;

    /// <summary>Why a file's data cannot be read, where that is known.</summary>
    public Exception? DamageOf(string stamp) => _damaged.GetValueOrDefault(stamp);

    /// <summary>Keeps why a file's data cannot be read.</summary>
    public void KeepDamage(string stamp, Exception damage) => _damaged[stamp] = damage;

    // Another card at the same place may hold files of the same names and lengths: hence their pixels' key beside the stamp.
    private static string Text(string folder, Level level) => string.Join(
        '\n',
        level.Frames.Select(f => string.Create(CultureInfo.InvariantCulture, $"{StampOf(Path.Combine(folder, f.File))}\t{f.ContentKey:x16}")).Prepend(level.Key.ToString()));

    /// <summary>A frame that was opened.</summary>
    /// <param name="Raw">The frame.</param>
    /// <param name="Sample">What a small sample of its photosites shows; null where none was taken.</param>
    /// <param name="ContentKey">A key made of its pixel bytes.</param>
    public sealed record OpenedFrame(RawFrame Raw, FrameSample? Sample, ulong ContentKey);
}
