using System.Collections.Concurrent;
using SensorLab.Debrief;
using SensorLab.Debriefs;
using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels;
using SensorLab.Pixels.Field;
using SensorLab.Profiles;
using SensorLab.Retest;
using SensorLab.Retest.Confirm;
using SensorLab.Sets;

namespace SensorLab.Confirms;

/// <summary>Reads a job's raw files and asks whether a profile still describes the body that took them.</summary>
/// <remarks>
/// Every file is read once for its codes and masked photosites. Of dark frames, and of lit ones of an even field, the largest
/// group of one ISO and exposure is read side by side once more, for means and noise. Which frames these are a <c>frames.csv</c>
/// says, or the folders (<c>dark</c>, <c>metered</c>, <c>bracket</c>, <c>light</c>), or their own photosites.
/// </remarks>
public sealed class ConfirmRun
{
    /// <summary>Frames of a group that are read side by side: more tell hardly more.</summary>
    private const int MostInGroup = 16;

    /// <summary>Lit frames brighter than this share of saturation are near the clip.</summary>
    private const double BrightestShare = 0.7;

    private readonly RawFileAccess _files = RawFileAccess.Library;
    private readonly SensorProfile _profile;
    private readonly ConcurrentBag<Finding> _findings = [];
    private readonly ConcurrentDictionary<int, CodeTally> _tallies = [];
    private readonly ConcurrentBag<JobFrame> _frames = [];
    private readonly ConcurrentDictionary<string, byte> _modes = [];

    private IReadOnlyDictionary<string, FrameRow> _rows = new Dictionary<string, FrameRow>();

    private ConfirmRun(SensorProfile profile) => _profile = profile;

    /// <summary>Confirms, or not.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="folder">The folder with the job's raw files.</param>
    /// <param name="jobs">Files read at once, 1 or more.</param>
    /// <param name="progress">Told after every frame; null for silence.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The result, and what was found of files that could not be read.</returns>
    /// <exception cref="DirectoryNotFoundException">The folder does not exist, or is a file.</exception>
    /// <exception cref="JobRefusedException">No raw file can be read.</exception>
    /// <exception cref="FrameTableException">A frames.csv at the top cannot be followed.</exception>
    /// <exception cref="MalformedFileException">The folder holds more raw files than any job.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static async Task<(ConfirmResult Result, IReadOnlyList<Finding> Findings)> RunAsync(
        SensorProfile profile, string folder, int jobs, IProgress<CharacterisationProgress>? progress = null, CancellationToken cancellation = default)
    {
        var run = new ConfirmRun(profile);
        (string root, IReadOnlyList<string> raw, IReadOnlyList<string> all) = JobFolder.RawFilesOf(folder, run._files, run._findings.Add, cancellation);
        run._rows = FrameSetFolder.TableOf(root, all).OfFile;
        int done = 0;
        await Parallel.ForEachAsync(raw, new ParallelOptions { MaxDegreeOfParallelism = jobs, CancellationToken = cancellation }, (file, stop) =>
        {
            run.Look(root, file, stop);
            progress?.Report(new CharacterisationProgress(Interlocked.Increment(ref done), raw.Count, file));
            return ValueTask.CompletedTask;
        });
        IReadOnlyList<Finding> findings = JobFindings.Merged(run._findings, raw.Count);
        if (run._frames.IsEmpty)
        {
            throw new JobRefusedException(findings.Count > 0 ? findings : [JobFindings.None(folder)]);
        }

        return (Confirmation.Of(profile, run.Evidence(root, cancellation), RetestMargins.Default), findings);
    }

    private void Look(string root, string file, CancellationToken cancellation)
    {
        try
        {
            using IMosaicReader reader = _files.Open(Path.Combine(root, file));
            FrameRow? row = _rows.GetValueOrDefault(file);
            FrameRole? role = row?.Role ?? FramePath.RoleOf(file).Role;
            bool isOfSensor = _profile.Sensor.WidthPixels == reader.Frame.Layout.ActiveArea.Width
                && _profile.Sensor.HeightPixels == reader.Frame.Layout.ActiveArea.Height
                && _profile.Sensor.ColourFilterArray == reader.Frame.Layout.ColourFilterArray.Name;
            foreach (string way in FrameKinship.ModeDifferences(_profile, reader.Frame).Concat(isOfSensor ? [] : ["another size or mosaic"]))
            {
                _modes.TryAdd(way, 0);
            }

            Assignment.FrameSample? sample = null;
            if (isOfSensor && reader.Frame.Metadata.Iso is { } iso && _profile.IsoProfiles.FirstOrDefault(p => p.Iso == iso) is { } known)
            {
                sample = _tallies.GetOrAdd(iso, _ => new CodeTally(known)).Add(file, reader, countsCodes: role != FrameRole.Dark, cancellation);
            }

            bool isSetAside = row is { IsSetAside: true };
            _frames.Add(new JobFrame(file, reader.Frame, isOfSensor && !isSetAside ? role : null, isSetAside ? null : sample));
        }
        catch (Exception e) when (e is UnsupportedFileException or MalformedFileException or IOException or UnauthorizedAccessException)
        {
            _findings.Add(FolderFindings.Of(file, e));
        }
    }

    private JobEvidence Evidence(string root, CancellationToken cancellation)
    {
        JobFrame[] frames = PlainGroups.Tell(_profile, [.. _frames.OrderBy(f => f.File, StringComparer.Ordinal)]);
        RawFrame first = frames[0].Frame;
        return new JobEvidence
        {
            Frames = frames.Length,
            Bodies = [.. frames.Select(f => f.Frame.Metadata).Select(m => new BodyIdentity(m.Maker, m.Model, m.SerialNumber, m.FirmwareIsConverter ? null : m.Firmware)).Distinct()],
            ModeDifferences = [.. _modes.Keys.Order(StringComparer.Ordinal)],
            Mode = RecordedModeText.Of(first.Metadata.Mode, first.Layout.BitDepth),
            ToldByPixels = PlainGroups.Words(frames),
            Isos = [.. _tallies.OrderBy(t => t.Key).Select(t => Of(root, t.Key, t.Value, frames, cancellation))],
        };
    }

    private IsoEvidence Of(string root, int iso, CodeTally tally, JobFrame[] frames, CancellationToken cancellation)
    {
        LevelStatistics? dark = Group(root, iso, frames, r => r == FrameRole.Dark, cancellation).FirstOrDefault();
        double brightest = _profile.IsoProfiles.First(p => p.Iso == iso).Channels.Min(c => c.BlackLevelDn?.Value + (BrightestShare * c.SaturationDn?.Value)) ?? double.PositiveInfinity;
        LevelStatistics? lit = Group(root, iso, frames, r => r is FrameRole.Metered or FrameRole.Bracket or FrameRole.Light, cancellation)
            .FirstOrDefault(l => l.Channels.All(c => c.MeanDn < brightest));
        LevelRecord? darkRecord = dark is null ? null : new LevelReducer([dark]).Reduce(dark);

        // Without a dark level the lit one stands in where steps of codes are learnt: they are not asked for here.
        LevelRecord? litRecord = lit is null ? null : new LevelReducer([dark ?? (lit with { Level = lit.Level with { Key = lit.Level.Key with { Role = FrameRole.Dark } } }), lit]).Reduce(lit);
        return new IsoEvidence(iso, [.. tally.Channels.Select(channel =>
        {
            ChannelEvidence codes = tally.Of(channel);
            LevelChannel? darkChannel = darkRecord?.Channels.First(c => c.Name == codes.Name);
            LevelChannel? litChannel = litRecord?.Channels.First(c => c.Name == codes.Name);
            return codes with
            {
                DarkMeanDn = MeanOf(darkChannel),
                DarkVarianceDn2 = VarianceOf(darkRecord, darkChannel),
                LitMeanDn = MeanOf(litChannel),
                LitVarianceDn2 = VarianceOf(litRecord, litChannel),
            };
        })]);
    }

    private static Estimate? MeanOf(LevelChannel? channel) => channel is { } own ? new Estimate(own.MeanDn, own.MeanUncertaintyDn) : null;

    private static Estimate? VarianceOf(LevelRecord? level, LevelChannel? channel) =>
        channel is { TemporalVarianceDn2: { } variance } ? new Estimate(variance, LevelVariance.TemporalUncertaintyDn2(level!, channel)!.Value) : null;

    /// <summary>Groups of one exposure, the largest first, measured one after the other as they are asked for.</summary>
    private IEnumerable<LevelStatistics> Group(string root, int iso, JobFrame[] frames, Func<FrameRole, bool> isWanted, CancellationToken cancellation)
    {
        foreach (var group in frames
            .Where(f => f.Frame.Metadata is { ExposureSeconds: not null } && f.Frame.Metadata.Iso == iso && f.Role is { } role && isWanted(role))
            .GroupBy(f => (Role: f.Role!.Value, f.Setting!.Value.SecondsStep, f.Frame.Metadata.ApertureFNumber))
            .Where(g => g.Count() > 1)
            .OrderByDescending(g => Math.Min(MostInGroup, g.Count()))
            .ThenBy(g => g.Key.Role != FrameRole.Metered)
            .ThenBy(g => g.Key.SecondsStep))
        {
            if (Measured(root, [.. group.Take(MostInGroup)], group.Key.Role, cancellation) is { } level)
            {
                yield return level;
            }
        }
    }

    private LevelStatistics? Measured(string root, JobFrame[] group, FrameRole role, CancellationToken cancellation)
    {
        var readers = new List<IMosaicReader>();
        try
        {
            readers.AddRange(group.Select(f => _files.Reopen(Path.Combine(root, f.File), f.Frame)));

            RawFrame first = group[0].Frame;
            var key = new LevelKey(first.Metadata.Iso!.Value, role, first.Metadata.ExposureSeconds!.Value, first.Metadata.ApertureFNumber, null, null);
            var level = new Level(key, [.. group.Select(f => new SetFrame { File = f.File, Raw = f.Frame, Role = role, ContentKey = 0 })]);
            return LevelMeter.Measure(level, readers, MeasurementArea.Of(first.Layout), cancellation);
        }
        catch (Exception e) when (e is LevelFrameException or MalformedFileException or UnsupportedFileException or IOException)
        {
            _findings.Add(FolderFindings.Of(group[0].File, e.InnerException ?? e));
            return null;
        }
        finally
        {
            readers.ForEach(r => r.Dispose());
        }
    }
}
