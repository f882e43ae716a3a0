using System.Security.Cryptography;
using System.Text;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Shelf;

/// <summary>A body on the shelf, whatever its firmware.</summary>
/// <param name="Id">What tells it from all others, on every shelf: 16 hexadecimal digits of a hash of maker, model and serial number.</param>
/// <param name="Maker">The maker; null where its frames do not say.</param>
/// <param name="Model">The model; null where its frames do not say.</param>
/// <param name="SerialNumber">The serial number; null where it is not known.</param>
/// <remarks>A profile without a serial number could be of any body of its model: it stands for a body of its own, alone.</remarks>
public sealed record ShelfBody(string Id, string? Maker, string? Model, string? SerialNumber)
{
    private const int IdDigits = 16;

    /// <summary>The body's name, as <c>Larkmoor LM-2 20417</c>, on one line.</summary>
    public string Name => ForeignText.OneLine(string.Join(' ', new[] { Maker, Model, SerialNumber ?? $"without serial number ({Id[..6]})" }.OfType<string>()));

    /// <summary>The name of its model, on one line.</summary>
    public string ModelName => ForeignText.OneLine(string.Join(' ', new[] { Maker, Model }.OfType<string>())) is { Length: > 0 } name ? name : "unnamed model";

    /// <summary>The body of a profile.</summary>
    /// <param name="body">What the profile says of it.</param>
    /// <param name="profile">The profile's key.</param>
    public static ShelfBody Of(BodyIdentity body, string profile)
    {
        string identity = string.Join('\0', body.Maker, body.Model, body.SerialNumber ?? "\0" + profile);
        string id = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(identity)))[..IdDigits];
        return new ShelfBody(id, body.Maker, body.Model, body.SerialNumber);
    }

    /// <summary>Whether a text names it: its serial number, its id, or words that its name holds.</summary>
    /// <param name="text">The text; case does not count.</param>
    public bool Fits(string text) =>
        IsExactly(text) || ForeignText.OneLine(text).Split(' ').All(word => Name.Contains(word, StringComparison.OrdinalIgnoreCase));

    /// <summary>Whether a text is its serial number, its whole name or its id.</summary>
    /// <param name="text">The text; case does not count.</param>
    public bool IsExactly(string text) =>
        string.Equals(text, SerialNumber, StringComparison.OrdinalIgnoreCase)
        || string.Equals(text, Id, StringComparison.OrdinalIgnoreCase)
        || string.Equals(ForeignText.OneLine(text), Name, StringComparison.OrdinalIgnoreCase);
}
