using System.Collections.Concurrent;
using SensorLab.Frames;
using SensorLab.Live;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels;
using SensorLab.Pixels.Defects;
using SensorLab.Pixels.Field;
using SensorLab.Profiles;
using SensorLab.RawFiles;
using SensorLab.Sets;

namespace SensorLab;

/// <summary>Measures all levels of a frame set, several at once; frames that turn out unusable are left out and the rest goes on.</summary>
internal sealed class SetMeasurement
{
    private readonly RawFileAccess _files;
    private readonly FrameSetContents _contents;
    private readonly CharacterisationOptions _options;
    private readonly IProgress<CharacterisationProgress>? _progress;
    private readonly bool _hashesFiles;
    private readonly SetMemory? _memory;
    private readonly ConcurrentDictionary<string, string> _hashes = new(StringComparer.Ordinal);
    private readonly Dictionary<string, LevelStatistics> _measured = new(StringComparer.Ordinal);
    private readonly List<Finding> _findings;
    private int _framesDone;

    private SetMeasurement(RawFileAccess files, FrameSetContents contents, CharacterisationOptions options, bool hashesFiles, IProgress<CharacterisationProgress>? progress, SetMemory? memory)
    {
        _memory = memory;
        _hashesFiles = hashesFiles;
        _files = files;
        _contents = contents;
        _options = options;
        _progress = progress;
        _findings = [.. contents.Findings];
    }

    /// <summary>Measures a set.</summary>
    /// <param name="files">How its files are opened.</param>
    /// <param name="contents">Its folder.</param>
    /// <param name="options">What the user chose.</param>
    /// <param name="hashesFiles">Whether each file's SHA-256 is wanted: a profile names its files by it.</param>
    /// <param name="progress">Told after every level.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <param name="memory">What was measured before, and counts where nothing that it hangs on has changed; null for nothing.</param>
    /// <exception cref="FrameSetRefusedException">The set can give no figures.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static Task<MeasuredSet> RunAsync(
        RawFileAccess files,
        FrameSetContents contents,
        CharacterisationOptions options,
        bool hashesFiles,
        IProgress<CharacterisationProgress>? progress,
        CancellationToken cancellation,
        SetMemory? memory = null) => new SetMeasurement(files, contents, options, hashesFiles, progress, memory).RunAsync(cancellation);

    private async Task<MeasuredSet> RunAsync(CancellationToken cancellation)
    {
        List<SetFrame> frames = [.. _contents.Frames];
        FrameSet set = Build(frames);
        var chooser = new AreaChooser(_files, _contents.Folder, _options, _memory);
        MeasurementArea area = chooser.Choose(set, cancellation);
        bool isReviewed = _options.Region is not null;
        bool isSplit = false;
        while (true)
        {
            IReadOnlyList<SetFrame> damaged = await MeasureMissingAsync(set, area, cancellation);
            (IReadOnlyList<SetFrame> copies, IReadOnlyList<Finding> duplicates) = DuplicateFinder.Find(damaged.Count > 0 ? [] : Statistics(set));
            _findings.AddRange(duplicates);
            if (damaged.Count + copies.Count == 0)
            {
                LevelStatistics[] statistics = [.. Statistics(set)];
                if (!isSplit)
                {
                    isSplit = true;
                    LightSplit split = LightSplit.Of(statistics);
                    _findings.AddRange(split.Findings);
                    if (split.Findings.Count + split.StepOf.Count > 0)
                    {
                        frames = [.. frames.Select(f => split.StepOf.TryGetValue(f, out string? step) ? f with { LightStep = step } : f)];
                        set = Build(frames);
                        continue;
                    }
                }

                if (!isReviewed && RegionReview.BetterThan(area.Region, statistics) is { } better)
                {
                    // One frame misled: all levels are measured again where all of them are even.
                    area = chooser.AreaOf(set, better) with { FieldMissing = area.FieldMissing };
                }
                else if (area.DeadLines.Count == 0 && LineReview.Of(statistics) is { Count: > 0 } dead)
                {
                    // What a line that does not answer left in all sums cannot be taken out afterwards.
                    area = area with { DeadLines = dead };
                }
                else
                {
                    return new MeasuredSet(set, statistics, area, _hashes);
                }

                isReviewed = true;
                _measured.Clear();
                _framesDone = 0;
                continue;
            }

            frames.RemoveAll(f => damaged.Contains(f) || copies.Contains(f));
            set = Build(frames);
        }
    }

    private FrameSet Build(IReadOnlyList<SetFrame> frames)
    {
        FrameSet set = FrameSetBuilder.Build(frames, _options.GreyInFrames, _findings);
        return set.IsRefused ? throw new FrameSetRefusedException(set.Findings) : set;
    }

    private IEnumerable<LevelStatistics> Statistics(FrameSet set) => set.Levels.Select(l => _measured[KeyOf(l)]);

    /// <summary>Measures the levels that were not measured with just these frames.</summary>
    /// <returns>Frames whose data are damaged; their levels are not measured.</returns>
    private async Task<IReadOnlyList<SetFrame>> MeasureMissingAsync(FrameSet set, MeasurementArea area, CancellationToken cancellation)
    {
        Level[] missing = [.. set.Levels.Where(l => !_measured.ContainsKey(KeyOf(l)))];
        IReadOnlyList<SetFrame> damagedDarks = await MeasureAsync([.. missing.Where(IsDark)], _ => new Darks([], DarkReference.None), area, cancellation);
        if (damagedDarks.Count > 0)
        {
            return damagedDarks;
        }

        // What dark frames show, lit ones drown in their noise: hence the dark ones first.
        var darks = set.Levels.Where(IsDark).GroupBy(l => l.Key.Iso).ToDictionary(g => g.Key, g => new Darks([.. g], DarkReference.Of(g.Select(l => _measured[KeyOf(l)]))));
        return await MeasureAsync([.. missing.Where(l => !IsDark(l))], iso => darks.GetValueOrDefault(iso) ?? new Darks([], DarkReference.None), area, cancellation);
    }

    private static bool IsDark(Level level) => level.Key.Role == FrameRole.Dark;

    private async Task<IReadOnlyList<SetFrame>> MeasureAsync(Level[] missing, Func<int, Darks> darks, MeasurementArea area, CancellationToken cancellation)
    {
        var results = new LevelStatistics?[missing.Length];
        var damaged = new ConcurrentBag<LevelFrameException>();

        // The last levels, too few for all workers, leave their files' hashes to those that have nothing left to do.
        int hashedApart = _hashesFiles && _memory is null ? missing.Length % _options.Jobs : 0;
        SetFrame[] toHash = [.. missing[^hashedApart..].SelectMany(l => l.Frames).Where(f => !_hashes.ContainsKey(f.File))];
        await Parallel.ForEachAsync(
            Enumerable.Range(0, missing.Length + toHash.Length),
            new ParallelOptions { MaxDegreeOfParallelism = _options.Jobs, CancellationToken = cancellation },
            (i, token) =>
            {
                try
                {
                    if (i >= missing.Length)
                    {
                        HashApart(toHash[i - missing.Length], token);
                    }
                    else
                    {
                        results[i] = Remembered(missing[i], darks(missing[i].Key.Iso), area, i < missing.Length - hashedApart, token);
                    }
                }
                catch (LevelFrameException e)
                {
                    _memory?.KeepDamage(StampOf(e.Frame), e.InnerException!);
                    damaged.Add(e);
                }

                return ValueTask.CompletedTask;
            });
        for (int i = 0; i < missing.Length; i++)
        {
            if (results[i] is { } statistics)
            {
                _measured[KeyOf(missing[i])] = statistics;
            }
        }

        LevelFrameException[] byFile = [.. damaged.OrderBy(d => d.Frame.File, StringComparer.Ordinal)];
        _findings.AddRange(byFile.Select(d => FolderFindings.Of(d.Frame.File, d.InnerException!)));
        return [.. byFile.Select(d => d.Frame)];
    }

    private LevelStatistics Remembered(Level level, Darks darks, MeasurementArea area, bool hashes, CancellationToken cancellation)
    {
        if (_memory is null)
        {
            return Measure(level, darks.Reference, area, hashes, cancellation);
        }

        string key = SetMemory.KeyOf(_contents.Folder, level, area, darks.Levels);
        if (_memory.Level(_contents.Folder, key, level, area) is { } known)
        {
            foreach (SetFrame frame in level.Frames)
            {
                Tell(frame);
                if (_memory.HashOf(StampOf(frame)) is { } hash)
                {
                    _hashes[frame.File] = hash;
                }
            }

            return known;
        }

        LevelStatistics measured = Measure(level, darks.Reference, area, hashes, cancellation);
        _memory.Keep(_contents.Folder, key, measured);
        return measured;
    }

    private LevelStatistics Measure(Level level, DarkReference reference, MeasurementArea area, bool hashes, CancellationToken cancellation)
    {
        List<IMosaicReader> readers = [];
        try
        {
            foreach (SetFrame frame in level.Frames)
            {
                readers.Add(Open(frame, hashes));
            }

            LevelStatistics statistics = LevelMeter.Measure(level, readers, area, reference, cancellation);
            for (int i = 0; i < readers.Count; i++)
            {
                SetFrame frame = level.Frames[i];
                if (readers[i] is HashedMosaicReader hashed)
                {
                    Hash(frame, hashed, cancellation);
                }

                Tell(frame);
            }

            return statistics;
        }
        finally
        {
            readers.ForEach(r => r.Dispose());
        }
    }

    private void Tell(SetFrame frame)
    {
        int done = Interlocked.Increment(ref _framesDone);
        _progress?.Report(new CharacterisationProgress(Math.Min(done, _contents.Frames.Count), _contents.Frames.Count, frame.File));
    }

    private string StampOf(SetFrame frame) => SetMemory.StampOf(Path.Combine(_contents.Folder, frame.File));

    private IMosaicReader Open(SetFrame frame, bool hashes)
    {
        if (_memory?.DamageOf(StampOf(frame)) is { } damage)
        {
            throw new LevelFrameException(frame, damage);
        }

        try
        {
            string path = Path.Combine(_contents.Folder, frame.File);
            return hashes && _hashesFiles && !_hashes.ContainsKey(frame.File) ? _files.OpenHashed(path, frame.Raw) : _files.Reopen(path, frame.Raw);
        }
        catch (Exception e) when (e is MalformedFileException or UnsupportedFileException or IOException or UnauthorizedAccessException)
        {
            throw new LevelFrameException(frame, e);
        }
    }

    private void HashApart(SetFrame frame, CancellationToken cancellation)
    {
        try
        {
            _hashes[frame.File] = FileHash.Sha256(Path.Combine(_contents.Folder, frame.File), cancellation);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LevelFrameException(frame, e);
        }
    }

    private void Hash(SetFrame frame, HashedMosaicReader reader, CancellationToken cancellation)
    {
        try
        {
            _hashes[frame.File] = reader.FinishSha256(cancellation);
            _memory?.KeepHash(StampOf(frame), _hashes[frame.File]);
        }
        catch (Exception e) when (e is MalformedFileException or IOException)
        {
            throw new LevelFrameException(frame, e);
        }
    }

    private static string KeyOf(Level level) => string.Join('\n', level.Frames.Select(f => f.File).Prepend(level.Key.ToString()));

    /// <summary>The dark levels of an ISO, and what they tell its lit ones.</summary>
    private sealed record Darks(IReadOnlyList<Level> Levels, DarkReference Reference);
}
