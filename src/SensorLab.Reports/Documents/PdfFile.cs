using SkiaSharp;

namespace SensorLab.Reports.Documents;

/// <summary>A document as a tagged PDF file's bytes: the same drawing with the same date gives the same bytes.</summary>
internal static class PdfFile
{
    private const string Creator = "SensorLab";

    /// <summary>Writes a document.</summary>
    /// <param name="title">Its title.</param>
    /// <param name="subject">What it is about; null for nothing.</param>
    /// <param name="date">Its dates. The clock's would change its bytes from run to run: take the content's own.</param>
    /// <param name="draw">Draws the pages and ends the last of them.</param>
    /// <param name="author">Who made it; null where it came from the user's own data.</param>
    public static byte[] Of(string title, string? subject, DateTime date, Action<PdfPages> draw, string? author = null)
    {
        var metadata = new SKDocumentPdfMetadata
        {
            Title = title,
            Subject = subject,
            Author = author,
            Creator = Creator,
            Creation = date,
            Modified = date,
            RasterDpi = SKDocumentPdfMetadata.DefaultRasterDpi,
            EncodingQuality = SKDocumentPdfMetadata.DefaultEncodingQuality,
        };
        PdfElement root;
        IReadOnlyList<IReadOnlyList<PdfElement?>> marks;
        using var stream = new MemoryStream();
        using (SKDocument document = SKDocument.CreatePdf(stream, metadata))
        {
            var pages = new PdfPages(document);
            draw(pages);
            document.Close();
            (root, marks) = (pages.Root, pages.Marks);
        }

        try
        {
            return TaggedPdf.Of(stream.ToArray(), root, marks);
        }
        catch (InvalidDataException)
        {
            // Another version of the drawing library may write in another form: a document without names of its parts beats none.
            return stream.ToArray();
        }
    }
}
