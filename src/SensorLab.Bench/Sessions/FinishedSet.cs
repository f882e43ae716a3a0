using System.Text;
using SensorLab.Bench.Api;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Reports;

namespace SensorLab.Bench.Sessions;

/// <summary>A set that was finished: its profile, its report, and where they lie.</summary>
/// <param name="Profile">The profile.</param>
/// <param name="Report">The report's files.</param>
/// <param name="Folder">Where they are kept; null where nothing is.</param>
internal sealed record FinishedSet(SensorProfile Profile, IReadOnlyList<ReportFile> Report, string? Folder)
{
    private const string ProfileName = "profile.json";

    private const string MarkName = "finished.txt";

    /// <summary>The comparison with an earlier profile; empty where none was asked for.</summary>
    public IReadOnlyList<ReportFile> Retest { get; init; } = [];

    /// <summary>How a finished assignment used the sensor; empty where none was asked for.</summary>
    public IReadOnlyList<ReportFile> Debrief { get; init; } = [];

    /// <summary>The body's earlier profiles, the newest first.</summary>
    public ShelfView? Shelf { get; init; }

    /// <summary>The private key that is offered to sign with; null for none.</summary>
    public string? KeyPath { get; init; }

    /// <summary>The bundle to publish; null where none was made.</summary>
    public byte[]? Bundle { get; init; }

    /// <summary>The profile's document.</summary>
    public byte[] Document()
    {
        using var stream = new MemoryStream();
        SensorProfileWriter.Write(Profile, stream);
        return stream.ToArray();
    }

    /// <summary>The set as it was finished in an earlier run of the program.</summary>
    /// <param name="folder">Where it was kept.</param>
    /// <param name="mark">What the set is known by now.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>Null where the set was not finished, has changed since, or what was kept of it cannot be read: it is finished again then.</returns>
    public static FinishedSet? Kept(string folder, string mark, CancellationToken cancellation)
    {
        try
        {
            string kept = Path.Combine(folder, MarkName);
            if (!File.Exists(kept) || File.ReadAllText(kept) != mark)
            {
                return null;
            }

            SensorProfile profile = SensorProfileReader.ReadFile(Path.Combine(folder, ProfileName));
            return new FinishedSet(profile, ReportWriter.Files(profile, cancellation), folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ProfileFormatException)
        {
            return null;
        }
    }

    /// <summary>Keeps profile and report, both or neither.</summary>
    /// <param name="mark">What the set is known by: <see cref="Kept"/> finds it by that.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="IOException">They cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">They may not be written.</exception>
    public void Keep(string mark, CancellationToken cancellation)
    {
        if (Folder is null)
        {
            return;
        }

        Directory.CreateDirectory(Folder);
        byte[] document = Document();
        new WholeOutput()
            .WithFile(Path.Combine(Folder, ProfileName), stream => stream.Write(document))
            .WithFile(Path.Combine(Folder, MarkName), stream => stream.Write(Encoding.UTF8.GetBytes(mark)))
            .WithFolder(Path.Combine(Folder, "report"), Report.Select(file => (file.Name, file.Bytes)))
            .PutInPlace(cancellation);
    }

    /// <summary>What the page shows.</summary>
    public ProfileBrief Brief()
    {
        var review = ProfileReview.Of(Profile);
        string body = string.Join(' ', new[] { Profile.Body.Maker, Profile.Body.Model, Profile.Body.SerialNumber }.Where(w => !string.IsNullOrWhiteSpace(w)));
        return new ProfileBrief(body.Length == 0 ? "A body without a name" : body, Folder is null ? string.Empty : Path.Combine(Folder, ProfileName), [review.Sentence, .. review.ShootAgain], [.. Report.Select(f => f.Name).Where(n => !n.Contains('/', StringComparison.Ordinal))], Retest.Count > 0, Bundle is not null, Debrief.Count > 0, Shelf, KeyPath);
    }
}
