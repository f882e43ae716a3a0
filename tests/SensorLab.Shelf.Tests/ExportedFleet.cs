using SensorLab.TestData;

namespace SensorLab.Shelf.Tests;

/// <summary>The export of a small fleet in which one body drifts, made once.</summary>
public sealed class ExportedFleet : IAsyncLifetime
{
    public const int Bodies = 9;
    public const int Sets = 3;
    public const int Drifting = 6;
    private const int DriftsFrom = 2;

    private readonly TemporaryFolder _folder = new();

    public string Export => _folder.File("export");

    public async ValueTask InitializeAsync()
    {
        var documents = new FleetDocuments(isos: 2, levels: 12);
        var shelf = new ProfileShelf(_folder.File("shelf"));
        await shelf.AddAsync(
            [.. Enumerable.Range(0, Bodies * Sets).Select(i => new ShelfCandidate("a profile", _ => ShelfDocument.Of(documents.Of(i / Sets, i % Sets, i / Sets == Drifting ? DriftsFrom : null))))],
            new Progress<int>());
        shelf.Export(Export);
    }

    public ValueTask DisposeAsync()
    {
        _folder.Dispose();
        return ValueTask.CompletedTask;
    }
}
