using SensorLab.Publishing.Keys;

namespace SensorLab.Cli.Presentation;

/// <summary>What to do with a new key pair.</summary>
internal static class KeyText
{
    /// <summary>The lines.</summary>
    public static IReadOnlyList<string> Lines(PublicKey key, string privatePath) =>
    [
        $"Private key: {privatePath}",
        .. WrappedText.Lines("Keep it to yourself, with a copy in a safe place: whoever has it signs in your name, and a lost one cannot be made again.", "  ", "  "),
        $"Public key: {KeyPairFiles.PublicPathOf(privatePath)}",
        .. WrappedText.Lines("Give it to those who verify, by another way than the bundles.", "  ", "  "),
        $"Thumbprint: {key.Thumbprint}",
    ];
}
