using System.Globalization;
using System.Numerics;

namespace SensorLab.Publishing.Keys;

/// <summary>The one form of an ECDSA signature: with (r, s), (r, n − s) is valid too, and a changed signature must not be.</summary>
internal static class EcdsaForm
{
    // The order n of P-256's base point (FIPS 186-5 by way of NIST SP 800-186, section 3.2.1.3).
    private static readonly BigInteger Order = BigInteger.Parse("0FFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551", NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);

    /// <summary>The signature with the smaller s.</summary>
    /// <param name="signature">r and s, 32 bytes each, big end first.</param>
    public static byte[] WithSmallS(byte[] signature)
    {
        if (HasSmallS(signature))
        {
            return signature;
        }

        byte[] other = [.. signature];
        byte[] s = (Order - Of(signature)).ToByteArray(isUnsigned: true, isBigEndian: true);
        other.AsSpan(PublicKey.CoordinateBytes).Clear();
        s.CopyTo(other, other.Length - s.Length);
        return other;
    }

    /// <summary>Whether s is the smaller one.</summary>
    /// <param name="signature">r and s, 32 bytes each, big end first.</param>
    public static bool HasSmallS(ReadOnlySpan<byte> signature) => Of(signature) * 2 < Order;

    private static BigInteger Of(ReadOnlySpan<byte> signature) => new(signature[PublicKey.CoordinateBytes..], isUnsigned: true, isBigEndian: true);
}
