using OpenCvSharp;
using SensorLab.Bench.Sharing;

namespace SensorLab.Bench.Tests;

/// <summary>Codes read by a decoder that is not ours.</summary>
public sealed class QrCodeTests
{
    private const int ModulePixels = 8;
    private const int QuietModules = 4;

    [Theory]
    [InlineData("A")]
    [InlineData("http://192.168.1.7/")]
    [InlineData("http://192.168.100.200:54321/s/0123456789ABCDEF0123456789ABCDEF0123456789ABCDEF")]
    [InlineData("http://10.0.0.1:1/s/FEDCBA9876543210FEDCBA9876543210FEDCBA9876543210")]
    public void Code_OfAText_IsReadBack(string text) => Assert.Equal(text, Read(QrCode.Of(text)));

    [Fact]
    public void Code_OfEveryLength_IsReadBack()
    {
        for (int length = 1; length <= QrCode.MostBytes; length += 5)
        {
            string text = string.Concat(Enumerable.Range(0, length).Select(i => (char)('!' + ((i * 37) % 90))));
            Assert.Equal(text, Read(QrCode.Of(text)));
        }
    }

    [Fact]
    public void Code_OfTooLongAText_IsRefused() => Assert.Throws<ArgumentException>(() => QrCode.Of(new string('x', QrCode.MostBytes + 1)));

    private static string Read(QrCode code)
    {
        int side = (code.Size + (2 * QuietModules)) * ModulePixels;
        using var picture = new Mat(side, side, MatType.CV_8UC1, Scalar.White);
        for (int row = 0; row < code.Size; row++)
        {
            for (int column = 0; column < code.Size; column++)
            {
                if (code[row, column])
                {
                    picture.Rectangle(new Rect((column + QuietModules) * ModulePixels, (row + QuietModules) * ModulePixels, ModulePixels, ModulePixels), Scalar.Black, -1);
                }
            }
        }

        using var detector = new QRCodeDetector();
        return detector.DetectAndDecode(picture, out _);
    }
}
