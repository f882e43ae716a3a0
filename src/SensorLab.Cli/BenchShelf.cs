using SensorLab.Bench;
using SensorLab.Cli.Presentation;
using SensorLab.Profiles;
using SensorLab.Shelf;

namespace SensorLab.Cli;

/// <summary>The user's shelf for the bench.</summary>
internal sealed class BenchShelf(Workbench workbench) : IBenchShelf
{
    /// <inheritdoc/>
    public ShelfView Look(SensorProfile profile, CancellationToken cancellation)
    {
        ProfileShelf shelf = Shelf;
        if (!Directory.Exists(shelf.Folder))
        {
            return new ShelfView(Holds: false, []);
        }

        try
        {
            // A body without a serial number is not told from others of its model: its profile stands for a body of its own.
            string own = ShelfDocument.Of(profile).Key;
            var body = ShelfBody.Of(profile.Body, own);
            ShelvedProfile[] profiles = [.. shelf.Contents(cancellation).Profiles.Where(p => p.Body == body).Reverse()];
            return new ShelfView(
                profiles.Any(p => p.Key == own),
                [.. profiles.Where(p => p.Key != own).Select(p => new EarlierProfile($"{ShelfListText.FirmwareOf(p)}, {ShelfListText.DateOf(p)}", shelf.PathOf(p.Key)))]);
        }
        catch (ShelfException e)
        {
            throw new IOException(e.Message, e);
        }
    }

    /// <inheritdoc/>
    public async Task AddAsync(SensorProfile profile, CancellationToken cancellation)
    {
        try
        {
            IReadOnlyList<TakenIn> taken = await Shelf.AddAsync([new ShelfCandidate("the finished profile", _ => ShelfDocument.Of(profile))], new Progress<int>(), cancellation);
            if (taken is [{ Fault: { } fault }])
            {
                throw new IOException(fault.Message, fault);
            }
        }
        catch (ShelfException e)
        {
            throw new IOException(e.Message, e);
        }
    }

    private ProfileShelf Shelf => ShelfPlace.Of(null, workbench, isMade: true);
}
