using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Publishing.Verification;

namespace SensorLab.Cli;

/// <summary>Where a profile comes from: its own file, or a bundle, which is verified first.</summary>
internal static class ProfileSource
{
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
