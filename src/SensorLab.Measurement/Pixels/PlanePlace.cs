namespace SensorLab.Measurement.Pixels;

/// <summary>Where the sites of a plane lie: at one place of every repeat of the colour filter array.</summary>
/// <param name="Row">Row of the place in the repeat.</param>
/// <param name="Column">Its column.</param>
/// <param name="RowStep">Photosites from one row of the plane to the next.</param>
/// <param name="ColumnStep">Photosites from one column to the next.</param>
internal readonly record struct PlanePlace(int Row, int Column, int RowStep, int ColumnStep)
{
    /// <summary>The row or column of the region that a line of the plane is.</summary>
    /// <param name="isRow">Whether the line is a row.</param>
    /// <param name="line">Its number in the plane.</param>
    public int PhotositeOf(bool isRow, int line) => isRow ? Row + (line * RowStep) : Column + (line * ColumnStep);

    /// <summary>The line of the plane that a row or column of the region is; null where it is none of the plane's.</summary>
    /// <param name="isRow">Whether it is a row.</param>
    /// <param name="photosite">Its number in the region.</param>
    public int? LineOf(bool isRow, int photosite)
    {
        (int from, int step) = isRow ? (photosite - Row, RowStep) : (photosite - Column, ColumnStep);
        return from >= 0 && from % step == 0 ? from / step : null;
    }
}
