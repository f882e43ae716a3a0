using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.Publishing.Verification;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of <c>verify</c>.</summary>
internal sealed record VerificationDocument(
    bool Valid,
    bool Whole,
    VerificationDocument.SignatureEntry Signature,
    long? SizeBytes,
    int? Files,
    string? ManifestSha256,
    string? FormatVersion,
    bool? Anonymous,
    IReadOnlyList<string>? AcceptedFindings,
    BodyIdentity? Body,
    IReadOnlyList<BundleFault> Faults,
    IReadOnlyList<BundleFault> Notes)
{
    /// <summary>Writes the document.</summary>
    /// <param name="output">Where to.</param>
    /// <param name="result">What was found.</param>
    public static void Write(TextWriter output, BundleVerification result)
    {
        string state = result.Signer is not null ? "valid" : result.IsSigned ? "invalid" : "none";
        var document = new VerificationDocument(
            result.IsValid,
            result.IsWhole,
            new SignatureEntry(state, result.Signer?.Thumbprint, result.IsTrusted),
            result.SizeBytes,
            result.Manifest?.Files.Count,
            result.ManifestSha256,
            result.Manifest?.FormatVersion,
            result.Manifest?.Anonymous,
            result.Manifest?.AcceptedFindings,
            result.IsWhole ? result.Profile?.Body : null,
            result.Faults,
            result.Notes);
        output.Write(JsonSerializer.Serialize(document, DocumentJson.WithNulls.VerificationDocument) + "\n");
    }

    internal sealed record SignatureEntry(string State, string? Thumbprint, bool? Trusted);
}
