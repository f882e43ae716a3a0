using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.Publishing.Verification;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of <c>verify</c>.</summary>
internal static class VerificationDocument
{
    /// <summary>Writes the document.</summary>
    /// <param name="output">Where to.</param>
    /// <param name="result">What was found.</param>
    public static void Write(TextWriter output, BundleVerification result)
    {
        BodyIdentity? body = result.IsWhole ? result.Profile?.Body : null;
        output.WriteLine(JsonSerializer.Serialize(
            new
            {
                Valid = result.IsValid,
                Whole = result.IsWhole,
                Signature = new
                {
                    State = result.Signer is not null ? "valid" : result.IsSigned ? "invalid" : "none",
                    result.Signer?.Thumbprint,
                    Trusted = result.IsTrusted,
                },
                result.SizeBytes,
                Files = result.Manifest?.Files.Count,
                result.ManifestSha256,
                result.Manifest?.FormatVersion,
                result.Manifest?.Anonymous,
                result.Manifest?.AcceptedFindings,
                Body = body,
                Faults = result.Faults,
            },
            FindingsDocument.Format));
    }
}
