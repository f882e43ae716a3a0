using System.Globalization;
using DuckDB.NET.Data;
using SensorLab.Profiles;
using SensorLab.Retest;

namespace SensorLab.Shelf.Store;

/// <summary>Brings profiles into the index, many a transaction: what is not committed was never there.</summary>
internal sealed class IndexWriter : IDisposable
{
    // A hundred thousand rows of levels at once are compressed once; fewer are written, read and compressed again.
    private const int MostProfiles = 128;

    private readonly IndexFile _file;
    private readonly HashSet<string> _bodies;
    private readonly HashSet<string> _profiles;
    private Appending? _open;

    /// <summary>A writer.</summary>
    /// <param name="file">The index, which nobody else writes to meanwhile.</param>
    public IndexWriter(IndexFile file)
    {
        _file = file;
        _bodies = [.. file.Ask("select body from body", r => r.GetString(0))];
        _profiles = new IndexReader(file).Keys();
    }

    /// <summary>Appends profiles; those that are there already stay as they are. Commits where there are enough.</summary>
    /// <param name="documents">The profiles.</param>
    public void Append(IEnumerable<ShelfDocument> documents)
    {
        foreach (ShelfDocument document in documents.Where(d => _profiles.Add(d.Key)))
        {
            if (_open is null)
            {
                // DuckDB's own threads would wait, at work, for what the reading beside it needs a processor for.
                _file.Do("set threads = 1");
                _open = new Appending(_file);
            }

            _open.Add(document, _bodies);
        }

        if (_open?.Profiles >= MostProfiles)
        {
            Commit();
        }
    }

    /// <summary>Commits what was appended.</summary>
    public void Commit()
    {
        _open?.Commit();
        _open?.Dispose();
        _open = null;
    }

    /// <summary>Lets go of what was not committed.</summary>
    public void Dispose() => _open?.Dispose();

    /// <summary>Takes out profiles whose files are gone.</summary>
    /// <param name="keys">Their keys.</param>
    public void Remove(IReadOnlyList<string> keys)
    {
        using DuckDBTransaction transaction = _file.Begin();
        foreach (string key in keys)
        {
            foreach (string table in IndexSchema.Tables.Where(t => t != "body"))
            {
                _file.Do($"delete from {table} where profile = ?", key);
            }
        }

        _file.Do("delete from body where body not in (select body from profile)");
        transaction.Commit();
    }

    /// <summary>A transaction with the tables open for rows.</summary>
    private sealed class Appending(IndexFile file) : IDisposable
    {
        private readonly DuckDBTransaction _transaction = file.Begin();
        private readonly DuckDBAppender[] _tables = [.. IndexSchema.Tables.Select(file.Appender)];

        public int Profiles { get; private set; }

        public void Add(ShelfDocument document, HashSet<string> bodies)
        {
            var owner = ShelfBody.Of(document.Profile.Body, document.Key);
            if (bodies.Add(owner.Id))
            {
                Rows("body").CreateRow().AppendValue(owner.Id).AppendText(owner.Maker).AppendText(owner.Model).AppendText(owner.SerialNumber).EndRow();
            }

            AddProfile(Rows("profile"), document.Key, owner.Id, document.Profile);
            AddFigures(Rows("iso_figure"), document.Key, document.Profile);
            AddLevels(Rows("level"), document.Key, document.Profile);
            AddFindings(Rows("finding"), document.Key, document.Profile);
            Profiles++;
        }

        public void Commit()
        {
            foreach (DuckDBAppender table in _tables)
            {
                table.Close();
            }

            _transaction.Commit();
        }

        public void Dispose()
        {
            foreach (DuckDBAppender table in _tables)
            {
                Release(table);
            }

            Release(_transaction);
        }

        private DuckDBAppender Rows(string table) => _tables[IndexSchema.Tables.Index().First(t => t.Item == table).Index];

        // What broke the transaction was told; letting go of rows that are not kept tells it again.
        private static void Release(IDisposable part)
        {
            try
            {
                part.Dispose();
            }
            catch (DuckDBException)
            {
            }
        }
    }

    private static void AddProfile(DuckDBAppender table, string key, string body, SensorProfile p)
    {
        ShootingConditions conditions = p.Conditions;
        RecordedMode mode = p.RecordingMode;
        table.CreateRow()
            .AppendValue(key).AppendValue(body).AppendText(p.Body.Firmware).AppendValue(p.CreatedUtc?.UtcDateTime)
            .AppendText(p.FormatVersion).AppendText(p.Software.Name).AppendText(p.Software.Version)
            .AppendValue(mode.BitDepth).AppendText(mode.Compression).AppendText(mode.Shutter).AppendText(mode.Drive).AppendText(mode.NoiseReduction).AppendText(mode.Crop).AppendText(mode.Description)
            .AppendValue(p.Sensor.WidthPixels).AppendValue(p.Sensor.HeightPixels).AppendText(p.Sensor.ColourFilterArray)
            .AppendText(conditions.Light).AppendText(conditions.Lens).AppendValue(conditions.ApertureFNumber).AppendValue(conditions.TemperatureCelsius).AppendText(conditions.Protocol)
            .AppendText(p.MiddleGrey.Method).AppendValue(p.MiddleGrey.MeterStepEv).AppendValue(p.MiddleGrey.MeterStandardUncertaintyEv).AppendValue(p.MiddleGrey.Readings)
            .AppendValue(string.Join(',', p.IsoProfiles.Select(i => i.Iso.ToString(CultureInfo.InvariantCulture))))
            .AppendValue(Count(p, FindingSeverity.Note)).AppendValue(Count(p, FindingSeverity.Warning)).AppendValue(Count(p, FindingSeverity.Refusal))
            .EndRow();
    }

    private static int Count(SensorProfile profile, FindingSeverity severity) => profile.Findings.Count(f => f.Severity == severity);

    private static void AddFigures(DuckDBAppender table, string key, SensorProfile profile)
    {
        foreach ((FigureAddress at, Figure figure) in ProfileFigures.Of(profile, withDelivery: true))
        {
            // A bound is an end of the interval and no value: nobody averages it by mistake.
            table.CreateRow()
                .AppendValue(key).AppendValue(at.Iso).AppendText(at.Channel).AppendText(at.Name)
                .AppendValue(figure.Value).AppendValue(figure.StandardUncertainty).AppendValue(figure.Lower95 ?? figure.AtLeast).AppendValue(figure.Upper95 ?? figure.AtMost)
                .AppendValue(figure.AtLeast is not null ? "atLeast" : figure.AtMost is not null ? "atMost" : null)
                .AppendValue(figure.DegreesOfFreedom)
                .AppendValue(figure.Budget?.StandardUncertainty).AppendValue(figure.Budget?.Lower95).AppendValue(figure.Budget?.Upper95).AppendValue(figure.Budget?.DegreesOfFreedom)
                .EndRow();
        }
    }

    private static void AddLevels(DuckDBAppender table, string key, SensorProfile profile)
    {
        foreach (IsoProfile iso in profile.IsoProfiles)
        {
            for (int number = 0; number < iso.Levels.Count; number++)
            {
                LevelRecord level = iso.Levels[number];
                foreach (LevelChannel channel in level.Channels)
                {
                    table.CreateRow()
                        .AppendValue(key).AppendValue(iso.Iso).AppendValue(number).AppendText(level.Role)
                        .AppendValue(level.ExposureSeconds).AppendValue(level.ApertureFNumber).AppendText(level.LightStep).AppendText(level.Light).AppendValue(level.Ev)
                        .AppendValue(level.Frames).AppendValue((double)level.PixelsPerChannel)
                        .AppendText(channel.Name).AppendValue(channel.MeanDn).AppendValue(channel.MeanUncertaintyDn)
                        .AppendValue(channel.TemporalVarianceDn2).AppendValue(channel.FixedPatternVarianceDn2).AppendValue(channel.BandVarianceDn2)
                        .AppendValue(channel.ClippedFraction).AppendValue(channel.UsedInFit ? 1 : 0)
                        .EndRow();
                }
            }
        }
    }

    private static void AddFindings(DuckDBAppender table, string key, SensorProfile profile)
    {
        for (int number = 0; number < profile.Findings.Count; number++)
        {
            Finding finding = profile.Findings[number];
            table.CreateRow()
                .AppendValue(key).AppendValue(number).AppendText(finding.Code).AppendValue(Word(finding.Severity))
                .AppendValue(finding.Iso).AppendText(finding.Channel).AppendValue(finding.Size).AppendText(finding.SizeUnit)
                .AppendText(finding.Message).AppendText(finding.Remedy).AppendValue(finding.Frames.Count)
                .EndRow();
        }
    }

    private static string Word(FindingSeverity severity) => severity.ToString().ToLowerInvariant();
}
