using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Publishing.Verification;
using SensorLab.Shelf;

namespace SensorLab.Cli;

/// <summary>Where a profile comes from: its own file, a bundle, which is verified first, or the shelf.</summary>
internal static class ProfileSource
{
    private const string OnShelf = "shelf:";

    /// <summary>The file that a word means.</summary>
    /// <param name="word">A path, or <c>shelf:BODY</c> for the newest profile of that body.</param>
    /// <param name="workbench">Knows where the shelf is.</param>
    /// <param name="terminal">Is told which profile is taken from the shelf.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="BodyUnknownException">The shelf holds no such body, or several.</exception>
    /// <exception cref="ShelfException">The shelf's index cannot be used.</exception>
    /// <exception cref="IOException">There is no shelf, or it cannot be read.</exception>
    public static string PathOf(string word, Workbench workbench, Terminal terminal, CancellationToken cancellation) =>
        IsOnShelf(word) ? NewestOnShelf(word, workbench, terminal, cancellation) : word;

    /// <summary>Reads a profile with its document.</summary>
    /// <inheritdoc cref="Read"/>
    public static ShelfDocument ReadDocument(string path, CancellationToken cancellation) =>
        !Directory.Exists(path) && IsArchive(path) ? ShelfDocument.Of(Read(path, cancellation)) : ShelfDocument.ReadFile(path);

    /// <summary>Reads a profile.</summary>
    /// <param name="path">A profile's file or a bundle's.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ProfileFormatException">It is no sound profile, or a bundle that is not whole.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It is a folder, or may not be read.</exception>
    public static SensorProfile Read(string path, CancellationToken cancellation)
    {
        if (Directory.Exists(path) && InputKind.InsteadOfProfile(path) is { } folder)
        {
            throw new IOException($"{folder.Given} {folder.Remedy}");
        }

        if (!IsArchive(path))
        {
            return ReadProfile(path);
        }

        BundleVerification bundle = BundleVerifier.VerifyFile(path, trusted: null, cancellation);
        return bundle is { IsWhole: true, Profile: { } profile } ? profile : throw new ProfileFormatException(
            $"{path} is a bundle that is not whole{(bundle.Faults is [var fault, ..] ? $" ({fault.Code}: {fault.Message})" : string.Empty)}.",
            "Get it again from who published it; sensorlab verify tells all that is wrong with it.");
    }

    // Apart, so that a command without a shelf loads nothing of it.
    private static string NewestOnShelf(string word, Workbench workbench, Terminal terminal, CancellationToken cancellation)
    {
        ProfileShelf shelf = ShelfPlace.Of(null, workbench);
        ShelfContents contents = shelf.Contents(cancellation);
        ShelvedProfile newest = contents.NewestOf(contents.BodyOf(word[OnShelf.Length..]));
        terminal.Error.WriteLine($"sensorlab: from the shelf: {newest.Body.Name}, {ShelfListText.FirmwareOf(newest)}, {ShelfListText.DateOf(newest)}");
        return shelf.PathOf(newest.Key);
    }

    private static bool IsOnShelf(string word) => word.StartsWith(OnShelf, StringComparison.Ordinal) && word.Length > OnShelf.Length;

    private static SensorProfile ReadProfile(string path)
    {
        try
        {
            return SensorProfileReader.ReadFile(path);
        }
        catch (ProfileFormatException e) when (InputKind.InsteadOfProfile(path) is { } other)
        {
            throw new ProfileFormatException(other.Given, other.Remedy, e);
        }
    }

    private static bool IsArchive(string path)
    {
        using FileStream file = PlainFile.OpenRead(path);
        Span<byte> head = stackalloc byte[4];
        return file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) == head.Length && head.SequenceEqual("PK\u0003\u0004"u8);
    }
}
