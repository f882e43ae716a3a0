namespace SensorLab.Frames;

/// <summary>The photosites of one frame, delivered once from top to bottom, so that no frame need be held whole.</summary>
/// <remarks>Not for use from several threads at once.</remarks>
public interface IMosaicReader : IDisposable
{
    /// <summary>The frame that is read.</summary>
    RawFrame Frame { get; }

    /// <summary>The rows at a time that cost the reader least (a strip, a row of tiles, or all).</summary>
    int PreferredRows { get; }

    /// <summary>Rows from one place where reading can begin to the next, 1 or more: what lies between is decoded to get past it.</summary>
    int RestartRows => Frame.Layout.HeightPixels;

    /// <summary>Reads the next rows, margins included, in DN after the file's linearisation table.</summary>
    /// <param name="rows">
    /// Destination, rows × <see cref="MosaicLayout.WidthPixels"/>; its length is a whole number of rows and
    /// no more than the rows left.
    /// </param>
    /// <exception cref="ArgumentException">The length is no whole number of rows, or more rows than are left.</exception>
    /// <exception cref="MalformedFileException">The file's data are damaged.</exception>
    void ReadRows(Span<ushort> rows);

    /// <summary>Passes over the next rows; cheap as far as whole <see cref="RestartRows"/> are passed.</summary>
    /// <param name="count">Rows, 0 or more and no more than are left.</param>
    /// <exception cref="ArgumentException">More rows than are left.</exception>
    /// <exception cref="MalformedFileException">The file's data are damaged.</exception>
    void SkipRows(int count)
    {
        var row = new ushort[Frame.Layout.WidthPixels];
        for (int i = 0; i < count; i++)
        {
            ReadRows(row);
        }
    }
}
