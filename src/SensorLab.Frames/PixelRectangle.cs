namespace SensorLab.Frames;

/// <summary>A rectangle of photosites.</summary>
/// <param name="X">First column.</param>
/// <param name="Y">First row.</param>
/// <param name="Width">Columns, 0 or more.</param>
/// <param name="Height">Rows, 0 or more.</param>
public readonly record struct PixelRectangle(int X, int Y, int Width, int Height)
{
    /// <summary>The column behind the last one.</summary>
    public int Right => X + Width;

    /// <summary>The row below the last one.</summary>
    public int Bottom => Y + Height;

    /// <summary>Photosites inside.</summary>
    public long Area => (long)Width * Height;

    /// <summary>Whether another rectangle lies inside this one.</summary>
    /// <param name="other">The rectangle to look for.</param>
    public bool Contains(PixelRectangle other) =>
        other.X >= X && other.Y >= Y && other.Right <= Right && other.Bottom <= Bottom;
}
