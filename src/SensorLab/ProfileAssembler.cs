using System.Globalization;
using SensorLab.Frames;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab;

/// <summary>Puts the sensor profile of a measured set together.</summary>
internal sealed class ProfileAssembler(FrameSetContents contents, MeasuredSet measured, MeasuredPreviews previews, CharacterisationOptions options, CancellationToken cancellation)
{
    private readonly SetFrame[] _used = [.. measured.Set.Levels.SelectMany(l => l.Frames)];
    private readonly List<Finding> _findings = [.. measured.Set.Findings, .. previews.Findings];
    private readonly List<IsoEvidence> _evidence = [];

    /// <summary>Characterises every ISO and examines it.</summary>
    /// <exception cref="OperationCanceledException">Cancelled; heeded between ISOs, whose fits take seconds at most.</exception>
    /// <returns>The ISOs that are not refused, in rising order, and all findings of the set.</returns>
    public (IReadOnlyList<IsoProfile> IsoProfiles, IReadOnlyList<Finding> Findings) Appraise()
    {
        IsoProfile[] isoProfiles = [.. measured.Levels.GroupBy(l => l.Level.Key.Iso).OrderBy(g => g.Key).Select(Characterise).OfType<IsoProfile>()];
        _findings.AddRange(IsoChecks.Examine(_evidence));
        IEnumerable<IsoProfile> kept = isoProfiles.Where(p => !_findings.Any(f => f.Severity == FindingSeverity.Refusal && f.Iso == p.Iso));
        return (FindingConsequences.Applied(kept, _findings), FindingOrder.WorstFirst(_findings));
    }

    /// <summary>Computes every figure and writes down where it came from.</summary>
    /// <exception cref="FrameSetRefusedException">Every ISO is refused.</exception>
    public SensorProfile Assemble()
    {
        (IReadOnlyList<IsoProfile> isoProfiles, IReadOnlyList<Finding> findings) = Appraise();
        if (isoProfiles.Count == 0)
        {
            throw new FrameSetRefusedException(findings);
        }

        RawFrame first = _used[0].Raw;
        PixelRectangle region = measured.Area.Region;
        var sensor = new SensorGeometry(first.Layout.ActiveArea.Width, first.Layout.ActiveArea.Height, first.Layout.ColourFilterArray.Name);
        return new SensorProfile
        {
            FormatVersion = SensorProfile.FormatVersionFor(sensor),
            CreatedUtc = _used.Max(f => f.Raw.Metadata.CaptureTime)?.ToUniversalTime(),
            Software = ThisSoftware.Identity,
            Body = new BodyIdentity(Common(m => m.Maker), Common(m => m.Model), Common(m => m.SerialNumber), Common(m => m.Firmware)),
            RecordingMode = RecordedModeText.Of(first.Metadata.Mode, first.Layout.BitDepth),
            Sensor = sensor,
            Conditions = new ShootingConditions
            {
                Lens = Common(m => m.Lens),
                ApertureFNumber = _used.Select(f => f.Raw.Metadata.ApertureFNumber).FirstOrDefault(a => a > 0),
                TemperatureCelsius = MeanTemperature(),
                Region = new MeasuredRegion(region.X, region.Y, region.Width, region.Height),
            },
            MiddleGrey = MiddleGreySummary.Of(isoProfiles, options.GreyInFrames, options.MeterStepInFramesEv),
            Delivery = options.Delivery,
            Assumptions = Assumptions(),
            IsoProfiles = isoProfiles,
            Lights = LightRatioEstimator.Of(isoProfiles),
            Findings = findings,
            Frames = FrameRecords(),
        };
    }

    private IsoProfile? Characterise(IGrouping<int, LevelStatistics> iso)
    {
        cancellation.ThrowIfCancellationRequested();
        LevelStatistics[] levels = [.. iso];
        RawFrame first = levels[0].Level.Frames[0].Raw;
        var reducer = new LevelReducer(levels);
        var isoOptions = new IsoOptions
        {
            Grey = options.GreyInFrames,
            MeterStepEv = options.MeterStepInFramesEv,
            SnrCriteria = options.AllSnrCriteria,
            Delivery = options.Delivery,
            SensorPixels = first.Layout.ActiveArea.Area,
            DeclaredBlackDn = first.Declared.BlackDn.ToDictionary(b => b.Key.ToString(), b => b.Value),
            DeclaredWhiteDn = first.Declared.WhiteDn,
            FieldMissing = measured.Area.FieldMissing,
        };
        IsoCharacterisation fitted = IsoCharacteriser.Characterise(iso.Key, [.. levels.Select(l => previews.Completed(l.Level, reducer.Reduce(l)))], isoOptions, cancellation);
        _findings.AddRange(fitted.Findings);
        if (IsoEvidence.Of(levels, fitted, isoOptions) is { } evidence)
        {
            _evidence.Add(evidence);
        }

        return fitted.Profile;
    }

    private string? Common(Func<FrameMetadata, string?> of) => _used.Select(f => of(f.Raw.Metadata)).FirstOrDefault(v => v is not null);

    private double? MeanTemperature()
    {
        double[] known = [.. _used.Select(f => f.Raw.Metadata.TemperatureCelsius).OfType<double>()];
        return known.Length == 0 ? null : known.Average();
    }

    private List<string> Assumptions()
    {
        List<string> assumptions =
        [
            "The nominal exposure times are right wherever response is judged against exposure: a smooth law of the shutter cannot be told from a smooth law of the sensor.",
            "Flare of lens and scene is not part of any figure: it comes on top.",
        ];
        if (previews.ByLevel.Count > 0)
        {
            assumptions.Add("A preview shows a plain field by the same curve as a scene: one that is bent by what the body takes the scene for cannot be told on a plain field.");
        }

        if (options.GreyInFrames == GreyMethod.Metered)
        {
            assumptions.Insert(0, "The light did not change between metering and the metered frames.");
        }

        return assumptions;
    }

    private List<FrameRecord> FrameRecords()
    {
        IEnumerable<FrameRecord> opened = contents.Frames.Select(f => new FrameRecord
        {
            File = f.File,
            Sha256 = HashOf(f.File),
            Role = f.Role?.ToString().ToLower(CultureInfo.InvariantCulture),
            Iso = f.Raw.Metadata.Iso,
            ExposureSeconds = f.Raw.Metadata.ExposureSeconds,
            Used = _used.Any(u => u.File == f.File),
        });
        IEnumerable<FrameRecord> rejected = contents.Rejected.Select(r => new FrameRecord
        {
            File = r.File,
            Sha256 = HashOf(r.File),
            Role = r.Role?.ToString().ToLower(CultureInfo.InvariantCulture),
            Used = false,
        });
        return [.. opened.Concat(rejected).OrderBy(f => f.File, StringComparer.Ordinal)];
    }

    private string? HashOf(string file)
    {
        if (measured.Hashes.TryGetValue(file, out string? known))
        {
            return known;
        }

        try
        {
            return FileHash.Sha256(Path.Combine(contents.Folder, file), cancellation);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
