using SensorLab.Files;

namespace SensorLab.Cli;

/// <summary>How files that we wrote begin: an earlier output may be replaced where it lies among a set's frames.</summary>
internal static class OwnMark
{
    private const int HeadBytes = 64;

    private static ReadOnlySpan<byte> PngSignature => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>Whether a file begins as a sensor profile does.</summary>
    /// <param name="file">The file.</param>
    public static bool IsProfile(string file) => Head(file).IndexOf("\"format\": \"sensorlab-profile\""u8) is > 0 and < 16;

    /// <summary>Whether a file is a PNG, which no frame is.</summary>
    /// <param name="file">The file.</param>
    public static bool IsPng(string file) => Head(file).StartsWith(PngSignature);

    private static ReadOnlySpan<byte> Head(string file)
    {
        if (!PlainFile.IsPlain(file))
        {
            return [];
        }

        using FileStream stream = PlainFile.OpenRead(file);
        byte[] head = new byte[HeadBytes];
        return head.AsSpan(0, stream.ReadAtLeast(head, HeadBytes, throwOnEndOfStream: false));
    }
}
