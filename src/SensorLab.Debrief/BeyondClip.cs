using SensorLab.Profiles;

namespace SensorLab.Debrief;

/// <summary>Reckons by how much cells are beyond the clip that clip in some channels and not in all.</summary>
/// <remarks>
/// Lights and what they fall on run from bluish to reddish: where red is a part of a stop more than a neutral tone has, blue is
/// about as much less, and green lies halfway. Two channels that did not clip so tell the third. Where one alone did not, the
/// colour is that of the bright cells around, the more alike in that channel the more; where none are known, a neutral one under the light of the profile's set.
/// </remarks>
internal sealed class BeyondClip
{
    /// <summary>The share of clipped photosites up to which a cell's mean is of the light and not of the clip.</summary>
    private const float SoundShare = 0.02f;

    /// <summary>Bright cells: no further than this below the clip, in EV.</summary>
    private const double BrightEv = 2;

    /// <summary>How far around a cell its surroundings go, in cells, and the step in which they are sampled.</summary>
    private const int Around = 12;
    private const int Step = 3;

    /// <summary>What differs by so many stops in the channel that is known counts half: a wall is judged by its own stones before the sky behind.</summary>
    private const double HalfAlikeEv = 0.25;

    private readonly FrameCells _cells;
    private readonly IsoGauge _gauge;
    private readonly float[][] _headroomEv;
    private readonly bool[] _isClipped;
    private readonly int _red;
    private readonly int _blue;
    private readonly int[] _greens;

    public BeyondClip(FrameCells cells, IsoGauge gauge, float[][] headroomEv, bool[] isClipped)
    {
        (_cells, _gauge, _headroomEv, _isClipped) = (cells, gauge, headroomEv, isClipped);
        (int Index, MeasuredClip Item)[] clips = [.. gauge.Clips.Index()];
        _red = clips.Where(c => c.Item.Channel == ChannelName.Red).Select(c => c.Index).DefaultIfEmpty(-1).First();
        _blue = clips.Where(c => c.Item.Channel == ChannelName.Blue).Select(c => c.Index).DefaultIfEmpty(-1).First();
        _greens = [.. clips.Where(c => ChannelName.IsGreen(c.Item.Channel)).Select(c => c.Index)];
    }

    /// <summary>Replaces the headroom of clipped cells.</summary>
    /// <param name="ev">Headroom by cell.</param>
    /// <param name="boundEv">What cells have of which every channel clips.</param>
    public void Reckon(float[] ev, double boundEv)
    {
        for (int cell = 0; cell < ev.Length; cell++)
        {
            if (_isClipped[cell])
            {
                ev[cell] = (float)Math.Clamp(Of(cell) ?? boundEv, boundEv, 0);
            }
        }
    }

    private double? Of(int cell)
    {
        if (_red < 0 || _blue < 0 || _greens.Length == 0)
        {
            return null;
        }

        (double? red, double? green, double? blue) = Tones(cell);
        if (red is null && green is null && blue is null)
        {
            return null;
        }

        (double redder, double bluer) = ColourOf(red, green, blue) ?? ColourAround(cell, red, green, blue) ?? (0, 0);
        double whole = green ?? (red - redder) ?? (blue - bluer)!.Value;
        return Math.Min(Later(_red) - whole - redder, Math.Min(_greens.Min(Later) - whole, Later(_blue) - whole - bluer));
    }

    /// <summary>The cell's tone in each colour, in EV from the neutral tone at which the first channel clips; null where it is not of the light alone.</summary>
    private (double? Red, double? Green, double? Blue) Tones(int cell)
    {
        double green = 0;
        foreach (int channel in _greens)
        {
            green += IsSound(channel) ? Tone(channel) / _greens.Length : double.NaN;
        }

        return (IsSound(_red) ? Tone(_red) : null, double.IsNaN(green) ? null : green, IsSound(_blue) ? Tone(_blue) : null);

        bool IsSound(int channel) => _cells.ClippedShares[channel][cell] <= SoundShare;

        double Tone(int channel) => Later(channel) - _headroomEv[channel][cell];
    }

    /// <summary>How much more red and blue have than green, in EV; null where fewer than two are known.</summary>
    private static (double Redder, double Bluer)? ColourOf(double? red, double? green, double? blue) => (red, green, blue) switch
    {
        ({ } r, { } g, { } b) => (r - g, b - g),
        ({ } r, null, { } b) => ((r - b) / 2, (b - r) / 2),
        ({ } r, { } g, null) => (r - g, g - r),
        (null, { } g, { } b) => (g - b, b - g),
        _ => null,
    };

    private (double Redder, double Bluer)? ColourAround(int cell, double? ownRed, double? ownGreen, double? ownBlue)
    {
        (double redder, double bluer, double weights) = (0, 0, 0);
        (int column, int row) = (cell % _cells.Columns, cell / _cells.Columns);
        for (int y = Math.Max(0, row - Around); y <= Math.Min(_cells.Rows - 1, row + Around); y += Step)
        {
            for (int x = Math.Max(0, column - Around); x <= Math.Min(_cells.Columns - 1, column + Around); x += Step)
            {
                int other = (y * _cells.Columns) + x;
                (double? red, double? green, double? blue) = Tones(other);
                if ((_isClipped[other] || _headroomEv.Min(h => h[other]) < BrightEv) && ColourOf(red, green, blue) is { } colour)
                {
                    double unlike = Math.Abs((red - ownRed) ?? (green - ownGreen) ?? (blue - ownBlue) ?? double.MaxValue);
                    double weight = Math.Pow(2, -unlike / HalfAlikeEv);
                    redder += weight * colour.Redder;
                    bluer += weight * colour.Bluer;
                    weights += weight;
                }
            }
        }

        return weights > 0 ? (redder / weights, bluer / weights) : null;
    }

    private double Later(int channel) => _gauge.NeutralEv[channel];
}
