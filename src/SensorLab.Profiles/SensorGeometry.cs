using System.Globalization;
using System.Text.Json.Serialization;
using SensorLab.Profiles.Json;

namespace SensorLab.Profiles;

/// <summary>The active area of a sensor.</summary>
/// <param name="WidthPixels">Photosite columns.</param>
/// <param name="HeightPixels">Photosite rows.</param>
/// <param name="ColourFilterArray">
/// The colour filters from the top left: four letters of a Bayer order, rows, columns and letters of another as
/// <c>4x4:RRGGRRGGGGBBGGBB</c> (an object in JSON), or monochrome.
/// </param>
public sealed record SensorGeometry(
    int WidthPixels, int HeightPixels, [property: JsonConverter(typeof(ColourFilterArrayConverter))] string ColourFilterArray)
{
    /// <summary>The filters for people to read: the name of a Bayer order or "monochrome", rows of letters of any other pattern.</summary>
    public string FiltersInWords()
    {
        if (ColourFilterArray.Split(ColourFilterArrayConverter.SizeMark) is not [var size, var letters] || size.Split('x') is not [var rows, var columns] || !int.TryParse(columns, CultureInfo.InvariantCulture, out int width) || width < 1)
        {
            return ColourFilterArray;
        }

        return $"filters in {rows} × {columns}: {string.Join(' ', letters.Chunk(width).Select(row => new string(row)))}";
    }
}
