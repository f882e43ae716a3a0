using SensorLab.Frames;

namespace SensorLab.Imaging;

/// <summary>A picture being drawn on: what the marks of the field need and no more.</summary>
internal interface IFieldCanvas : IDisposable
{
    /// <summary>Columns.</summary>
    int Width { get; }

    /// <summary>Rows.</summary>
    int Height { get; }

    /// <summary>Draws a horizontal or vertical line.</summary>
    /// <param name="from">One end.</param>
    /// <param name="to">The other end, drawn too.</param>
    /// <param name="colour">Its colour.</param>
    /// <param name="thickness">Pixels across.</param>
    void Line((int X, int Y) from, (int X, int Y) to, MarkColour colour, int thickness);

    /// <summary>Fills a rectangle.</summary>
    void Fill(PixelRectangle rectangle, MarkColour colour);

    /// <summary>The size of a label's text: columns, rows above its base line, rows below.</summary>
    /// <param name="text">The text.</param>
    /// <param name="scale">1 for capitals of some 21 pixels.</param>
    (int Width, int Ascent, int Descent) SizeOf(string text, double scale);

    /// <summary>Writes a label's text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="scale">As for <see cref="SizeOf"/>.</param>
    /// <param name="start">Where its base line begins.</param>
    /// <param name="colour">Its colour.</param>
    void Write(string text, double scale, (int X, int Y) start, MarkColour colour);

    /// <summary>The picture as a PNG file, 8 bits a channel.</summary>
    byte[] Png();
}
