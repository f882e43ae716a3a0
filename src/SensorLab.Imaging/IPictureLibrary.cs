namespace SensorLab.Imaging;

/// <summary>A native library that decodes, draws and encodes pictures. What any of them makes of a JPEG file differs by one code at most.</summary>
internal interface IPictureLibrary
{
    /// <summary>Decodes a JPEG file as stored: no colour profile is applied, no orientation followed.</summary>
    /// <param name="jpeg">The file.</param>
    /// <param name="widthPixels">The columns that it must have.</param>
    /// <param name="heightPixels">The rows that it must have.</param>
    /// <param name="reduction">1, 2, 4 or 8: how many pixels a side of the file become one.</param>
    /// <returns>The picture; null where the file does not decode or is of another size.</returns>
    IDecodedPicture? Decode(byte[] jpeg, int widthPixels, int heightPixels, int reduction);

    /// <summary>A grey picture to draw on.</summary>
    /// <param name="widthCells">Cells a row.</param>
    /// <param name="heightCells">Rows of cells.</param>
    /// <param name="greys">The cells' codes, row by row.</param>
    /// <param name="factor">Pixels a side of a cell.</param>
    IFieldCanvas Canvas(int widthCells, int heightCells, byte[] greys, int factor);
}
