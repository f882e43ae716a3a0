using SensorLab.Frames;
using SensorLab.Simulation.Draws;

namespace SensorLab.Simulation.Scenes;

/// <summary>A place with known tones: walls, skies, black rooms, points of light, deep shadow; and photosites that are hot.</summary>
/// <remarks>Tones are EV of green from where the meter reads exactly zero, at the metered exposure. What is painted later lies on top.</remarks>
public sealed class JobScene
{
    private readonly MosaicLayout _layout;
    private readonly List<int> _hot = [];

    /// <summary>An empty scene of one tone.</summary>
    /// <param name="layout">The geometry of the body's frames.</param>
    /// <param name="groundEv">Its tone.</param>
    public JobScene(MosaicLayout layout, double groundEv)
    {
        _layout = layout;
        Light = new float[layout.ActiveArea.Area];
        Fill(new PixelRectangle(0, 0, Width, Height), groundEv, SceneColour.Neutral);
    }

    /// <summary>Light of each photosite of the active area over that of middle grey (rows × columns).</summary>
    public float[] Light { get; }

    /// <summary>Hot photosites of the active area, as indices of <see cref="Light"/>.</summary>
    public IReadOnlyList<int> Hot => _hot;

    private int Width => _layout.ActiveArea.Width;

    private int Height => _layout.ActiveArea.Height;

    /// <summary>Paints an even surface.</summary>
    /// <param name="place">Where, in photosites of the active area.</param>
    /// <param name="toneEv">Its tone.</param>
    /// <param name="colour">Its colour.</param>
    /// <returns>This scene.</returns>
    public JobScene With(PixelRectangle place, double toneEv, SceneColour colour)
    {
        Fill(place, toneEv, colour);
        return this;
    }

    /// <summary>Paints a wall of stones, each of one tone; neighbours differ.</summary>
    /// <param name="place">Where.</param>
    /// <param name="darkestEv">The tone of the darkest stones.</param>
    /// <param name="brightestEv">The tone of the brightest.</param>
    /// <param name="stonePixels">Photosites a side of a stone.</param>
    /// <returns>This scene.</returns>
    public JobScene WithWall(PixelRectangle place, double darkestEv, double brightestEv, int stonePixels)
    {
        const int Tones = 4;
        for (int y = place.Y; y < place.Bottom; y += stonePixels)
        {
            for (int x = place.X; x < place.Right; x += stonePixels)
            {
                int tone = (((x - place.X) / stonePixels) + (2 * ((y - place.Y) / stonePixels))) % Tones;
                double ev = darkestEv + ((brightestEv - darkestEv) * tone / (Tones - 1));
                Fill(new PixelRectangle(x, y, Math.Min(stonePixels, place.Right - x), Math.Min(stonePixels, place.Bottom - y)), ev, SceneColour.Neutral);
            }
        }

        return this;
    }

    /// <summary>Paints a sky that darkens upwards.</summary>
    /// <param name="place">Where.</param>
    /// <param name="horizonEv">Its tone at the lower edge.</param>
    /// <param name="zenithEv">Its tone at the upper edge.</param>
    /// <returns>This scene.</returns>
    public JobScene WithSky(PixelRectangle place, double horizonEv, double zenithEv)
    {
        for (int y = place.Y; y < place.Bottom; y++)
        {
            double ev = zenithEv + ((horizonEv - zenithEv) * (y - place.Y) / Math.Max(1, place.Height - 1));
            Fill(new PixelRectangle(place.X, y, place.Width, 1), ev, SceneColour.Sky);
        }

        return this;
    }

    /// <summary>Strews points of light: squares of a few photosites, as the sun in drops and on edges of metal.</summary>
    /// <param name="count">How many.</param>
    /// <param name="sidePixels">Photosites a side.</param>
    /// <param name="toneEv">Their tone.</param>
    /// <param name="seed">Where they lie.</param>
    /// <returns>This scene.</returns>
    public JobScene WithPoints(int count, int sidePixels, double toneEv, ulong seed)
    {
        var stream = new RandomStream(seed, 1);
        for (int i = 0; i < count; i++)
        {
            int x = (int)(stream.NextUnit() * (Width - sidePixels));
            int y = (int)(stream.NextUnit() * (Height - sidePixels));
            Fill(new PixelRectangle(x, y, sidePixels, sidePixels), toneEv, SceneColour.Neutral);
        }

        return this;
    }

    /// <summary>Makes photosites hot: they stand at their highest code, whatever light there is.</summary>
    /// <param name="count">How many.</param>
    /// <param name="seed">Where they lie.</param>
    /// <returns>This scene.</returns>
    public JobScene WithHotPixels(int count, ulong seed)
    {
        var stream = new RandomStream(seed, 2);
        for (int i = 0; i < count; i++)
        {
            _hot.Add((int)(stream.NextUnit() * Light.Length));
        }

        return this;
    }

    private void Fill(PixelRectangle place, double toneEv, SceneColour colour)
    {
        double light = Math.Pow(2, toneEv);
        for (int y = place.Y; y < place.Bottom; y++)
        {
            int columns = _layout.ColourFilterArray.Columns;
            float[] seen = [.. Enumerable.Range(place.X, columns).Select(x => (float)(light * colour.Of(_layout.ColourFilterArray.ChannelAt(y, x))))];
            for (int x = place.X; x < place.Right; x++)
            {
                Light[(y * Width) + x] = seen[(x - place.X) % columns];
            }
        }
    }
}
