using System.Text.Json.Nodes;

namespace SensorLab.Bench.Api;

/// <summary>Opens a set.</summary>
internal sealed record OpenSetRequest(string? Folder, JsonObject? Plan, IReadOnlyList<MeteredRequest>? Metered);

/// <summary>Where the spot meter read zero.</summary>
internal sealed record MeteredRequest(double ExposureSeconds, int Iso);

/// <summary>Asks for a plan.</summary>
internal sealed record PlanFormRequest(string? Protocol, IReadOnlyList<int>? Isos, string? Fastest, string? Slowest, string? MeteredShutter, int? MeteredIso, int? Mains, string? From);

/// <summary>Says what frames serve for: a role, none to strike them, null to take the word back.</summary>
internal sealed record SayRequest(IReadOnlyList<string>? Files, string? Role, string? LightStep);

/// <summary>How sure a figure is to be: half the 95 % interval.</summary>
internal sealed record WantedRequest(string? Figure, double? Uncertainty);

/// <summary>Compares with an earlier profile of the body.</summary>
internal sealed record RetestRequest(string? Before);

/// <summary>Tells how a finished assignment used the sensor.</summary>
internal sealed record DebriefRequest(string? Folder);

/// <summary>Publishes the profile, signed where a private key is named.</summary>
internal sealed record PublishRequest(bool Anonymous, bool AcceptFindings, string? Key);

/// <summary>What is to be known of a bundle that was made.</summary>
internal sealed record PublishedBrief(IReadOnlyList<string> Notices);

/// <summary>What went wrong with a request.</summary>
internal sealed record Fault(string Error, string? Remedy);

/// <summary>A folder with the folders in it, to choose from, and the files that may be profiles or private keys.</summary>
internal sealed record FolderListing(string Path, string? Parent, IReadOnlyList<string> Folders, int RawFiles, IReadOnlyList<string> Profiles, IReadOnlyList<string> Keys);

/// <summary>What the plan's form begins with.</summary>
internal sealed record FormDefaults(IReadOnlyList<ProtocolBrief> Protocols, IReadOnlyList<string> Shutters, string Fastest, string Slowest, int? Mains, string Home);

/// <summary>A protocol to choose.</summary>
internal sealed record ProtocolBrief(string Name, string Title, string Purpose, IReadOnlyList<int> Isos);
