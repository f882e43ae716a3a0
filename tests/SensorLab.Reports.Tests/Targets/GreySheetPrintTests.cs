using System.Diagnostics;
using System.Text;
using SensorLab.Reports.Targets;

namespace SensorLab.Reports.Tests.Targets;

/// <summary>The sheets' PDFs drawn at 300 dots an inch by another program, and measured there.</summary>
public sealed class GreySheetPrintTests : IDisposable
{
    private const string Renderer = "/usr/bin/pdftoppm";
    private const double DotsPerMm = 300 / 25.4;

    // The goal: half a percent of 100 mm.
    private const double Tolerance = 0.005;

    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-sheet-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData(PaperSize.A4, 210, 297)]
    [InlineData(PaperSize.A3, 297, 420)]
    [InlineData(PaperSize.Letter, 215.9, 279.4)]
    public void Sheet_At300Dpi_MeasuresRight(PaperSize paper, double widthMm, double heightMm)
    {
        Assert.SkipWhen(!File.Exists(Renderer), $"There is no {Renderer}: bash src/install.sh --tests installs it.");

        (int width, int height, byte[] grey) = Draw(paper);

        Right(widthMm, width);
        Right(heightMm, height);
        (int start, int end) = Longest(grey, width, width * height / 6 / width, v => v is > 100 and < 140);
        Right(widthMm - 20, end - start);
        Right(10, start, 0.05);
        Right(100, BarDots(grey, width, height));
    }

    /// <summary>From the first dark dot of the bar's upper line to the last: the one row whose dark dots run furthest right without a gap at the bar's black fields.</summary>
    private static int BarDots(byte[] grey, int width, int height)
    {
        int best = 0;
        for (int row = height / 2; row < height; row++)
        {
            (int start, int end) = Longest(grey, width, row, v => v < 100);
            best = Math.Max(best, end - start);
        }

        return best;
    }

    private static (int Start, int End) Longest(byte[] grey, int width, int row, Func<byte, bool> belongs)
    {
        (int Start, int End) best = (0, 0);
        int start = -1;
        for (int x = 0; x <= width; x++)
        {
            bool inside = x < width && belongs(grey[(row * width) + x]);
            if (inside && start < 0)
            {
                start = x;
            }
            else if (!inside && start >= 0)
            {
                best = x - start > best.End - best.Start ? (start, x) : best;
                start = -1;
            }
        }

        return best;
    }

    private static void Right(double millimetres, int dots, double tolerance = Tolerance) =>
        Assert.InRange(dots / DotsPerMm, millimetres * (1 - tolerance), millimetres * (1 + tolerance));

    private (int Width, int Height, byte[] Grey) Draw(PaperSize paper)
    {
        string pdf = Path.Combine(_folder, "sheet.pdf");
        File.WriteAllBytes(pdf, GreySheet.ToPdf(paper));
        using (Process process = Process.Start(Renderer, ["-r", "300", "-gray", "-singlefile", pdf, Path.Combine(_folder, "sheet")]))
        {
            process.WaitForExit();
        }

        // A binary grey map: "P5", width, height and 255 as words, then a byte a dot.
        byte[] file = File.ReadAllBytes(Path.Combine(_folder, "sheet.pgm"));
        string[] head = Encoding.ASCII.GetString(file, 0, 40).Split((char[]?)null, 5);
        int start = head.Take(4).Sum(w => w.Length + 1);
        return (int.Parse(head[1], System.Globalization.CultureInfo.InvariantCulture), int.Parse(head[2], System.Globalization.CultureInfo.InvariantCulture), file[start..]);
    }
}
