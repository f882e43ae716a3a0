using SensorLab.Profiles;

namespace SensorLab.Bench.Tests;

/// <summary>A shelf that is a folder: what is put on it, and an earlier profile where one lies there.</summary>
internal sealed class FolderShelf(string folder) : IBenchShelf
{
    public const string EarlierName = "earlier.json";

    private string Kept => Path.Combine(folder, "kept.json");

    public ShelfView Look(SensorProfile profile, CancellationToken cancellation)
    {
        string earlier = Path.Combine(folder, EarlierName);
        return new ShelfView(File.Exists(Kept), File.Exists(earlier) ? [new EarlierProfile("firmware 1.0, 3 May 2026", earlier)] : []);
    }

    public Task AddAsync(SensorProfile profile, CancellationToken cancellation)
    {
        SensorProfileWriter.WriteFile(profile, Kept, cancellation);
        return Task.CompletedTask;
    }
}
