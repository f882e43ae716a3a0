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

    /// <summary>Keeps profile and report, both or neither.</summary>
    /// <exception cref="IOException">They cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">They may not be written.</exception>
    public void Keep(CancellationToken cancellation)
    {
        if (Folder is null)
        {
            return;
        }

        Directory.CreateDirectory(Folder);
        byte[] document = Document();
        new WholeOutput()
            .WithFile(Path.Combine(Folder, "profile.json"), stream => stream.Write(document))
            .WithFolder(Path.Combine(Folder, "report"), Report.Select(file => (file.Name, file.Bytes)))
            .PutInPlace(cancellation);
    }

    /// <summary>What the page shows.</summary>
    public ProfileBrief Brief()
    {
        var review = ProfileReview.Of(Profile);
        string body = string.Join(' ', new[] { Profile.Body.Maker, Profile.Body.Model, Profile.Body.SerialNumber }.Where(w => !string.IsNullOrWhiteSpace(w)));
        return new ProfileBrief(body.Length == 0 ? "A body without a name" : body, Folder is null ? string.Empty : Path.Combine(Folder, "profile.json"), [review.Sentence, .. review.ShootAgain], [.. Report.Select(f => f.Name).Where(n => !n.Contains('/', StringComparison.Ordinal))], Retest.Count > 0, Bundle is not null, Debrief.Count > 0, Shelf, KeyPath);
    }
}
