using System.Text.Json.Serialization;
using SensorLab.Frames;

namespace SensorLab.Simulation.Bodies;

/// <summary>A camera body whose every property is known.</summary>
/// <remarks>The properties are also the properties of a body file (<see cref="VirtualBodyFile"/>), in camelCase.</remarks>
public sealed record VirtualBody
{
    // The LM-2's laws: an amplifier's noise behind the gain and a converter's before it.
    private const double BaseIso = 100;
    private const double BaseGainElectronPerDn = 2.6;
    private const double AmplifierNoiseElectron = 1.5;
    private const double ConverterNoiseDn = 1.05;
    private const double BaseMiddleGreyElectron = 4700;

    /// <summary>The maker.</summary>
    public string Maker { get; init; } = "Larkmoor";

    /// <summary>The model.</summary>
    public string Model { get; init; } = "LM-2";

    /// <summary>The body's serial number.</summary>
    public string SerialNumber { get; init; } = "20417";

    /// <summary>The firmware.</summary>
    public string Firmware { get; init; } = "1.1";

    /// <summary>Bits of the converter: 8 to 16.</summary>
    public int BitDepth { get; init; } = 14;

    /// <summary>Monochrome, RGGB, BGGR, GRBG, GBRG, or rows, columns and letters of another pattern: <c>4x4:RRGGRRGGGGBBGGBB</c>.</summary>
    public string ColourFilterArray { get; init; } = "RGGB";

    /// <summary>Columns of the active area.</summary>
    public int WidthPixels { get; init; } = 480;

    /// <summary>Rows of the active area.</summary>
    public int HeightPixels { get; init; } = 320;

    /// <summary>Columns of optical black left of the active area, an even number.</summary>
    public int MaskedLeftPixels { get; init; }

    /// <summary>Rows of optical black above the active area, an even number.</summary>
    public int MaskedTopPixels { get; init; }

    /// <summary>Black level of the optical black less that of the active area, in DN.</summary>
    public double MaskedBlackShiftDn { get; init; }

    /// <summary>Black level in DN; its fraction matters.</summary>
    public double BlackLevelDn { get; init; } = 512.25;

    /// <summary>The lowest code in DN that the converter knows: what lies below is cut off at it, and where black is near, dark values are.</summary>
    public int LowestCodeDn { get; init; }

    /// <summary>Black level that files declare, in DN; null for the true one.</summary>
    public double? DeclaredBlackDn { get; init; }

    /// <summary>White level that files declare, in DN; null for the plateau of each ISO, rounded.</summary>
    public double? DeclaredWhiteDn { get; init; }

    /// <summary>Full well in e⁻, above or below what the converter can count.</summary>
    public double FullWellElectron { get; init; } = 40_000;

    /// <summary>Standard deviation of the pixels' response in percent, row and column parts not included.</summary>
    public double PrnuPercent { get; init; } = 0.6;

    /// <summary>Standard deviation of the rows' response in percent.</summary>
    public double PrnuRowPercent { get; init; }

    /// <summary>Standard deviation of the columns' response in percent.</summary>
    public double PrnuColumnPercent { get; init; }

    /// <summary>Standard deviation of the pixels' offset in e⁻, row and column parts not included.</summary>
    public double DsnuElectron { get; init; } = 0.3;

    /// <summary>Standard deviation of the rows' offset in e⁻.</summary>
    public double DsnuRowElectron { get; init; }

    /// <summary>Standard deviation of the columns' offset in e⁻.</summary>
    public double DsnuColumnElectron { get; init; }

    /// <summary>Temporal noise that a row shares, in e⁻; part of every ISO's read noise.</summary>
    public double RowNoiseElectron { get; init; }

    /// <summary>Temporal noise that a column shares, in e⁻; part of every ISO's read noise.</summary>
    public double ColumnNoiseElectron { get; init; }

    /// <summary>Dark current in e⁻ a second.</summary>
    public double DarkCurrentElectronPerSecond { get; init; }

    /// <summary>Compression of the response: percent missing at the full well, growing with the signal's square; 0 for a straight line.</summary>
    public double CompressionPercent { get; init; }

    /// <summary>Which of all bodies with these properties this is: the seed of its fixed patterns.</summary>
    public ulong PatternSeed { get; init; } = 1;

    /// <summary>What each channel sees of the light.</summary>
    public ChannelSensitivity ChannelSensitivity { get; init; } = new();

    /// <summary>What each place of the colour filter array sees of the light over what its channel does, in reading order; empty where all see as much.</summary>
    public IReadOnlyList<double> PlaceSensitivity { get; init; } = [];

    /// <summary>The look of its previews; null for files without previews.</summary>
    public PreviewLook? Look { get; init; } = new();

    /// <summary>Looks in which one frame more of each bracket level is shot; none for files without previews.</summary>
    public IReadOnlyList<PreviewLook> FurtherLooks { get; init; } = [];

    /// <summary>All looks, the first one's first.</summary>
    internal IEnumerable<PreviewLook> Looks => Look is { } look ? FurtherLooks.Prepend(look) : FurtherLooks;

    /// <summary>The ISO settings.</summary>
    public IReadOnlyList<VirtualIso> IsoSettings { get; init; } = DefaultIsoSettings();

    /// <summary>The exposure times.</summary>
    public ShutterSeries Shutter { get; init; } = new();

    /// <summary>How its photographer works.</summary>
    public ShootingHabits Shooting { get; init; } = new();

    /// <summary>The filters.</summary>
    [JsonIgnore]
    public ColourFilterArray Filters =>
        Frames.ColourFilterArray.FromName(ColourFilterArray)
        ?? throw new InvalidOperationException($"No colour filter array is called {ColourFilterArray}.");

    /// <summary>The largest code of the converter.</summary>
    [JsonIgnore]
    public int LargestCodeDn => (1 << BitDepth) - 1;

    /// <summary>The setting of an ISO.</summary>
    /// <param name="iso">ISO setting.</param>
    /// <returns>The setting.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The body has no such ISO; the message lists those it has.</exception>
    public VirtualIso At(int iso) =>
        IsoSettings.FirstOrDefault(setting => setting.Iso == iso)
        ?? throw new ArgumentOutOfRangeException(
            nameof(iso),
            iso,
            $"The body has no ISO {iso}; it has {string.Join(", ", IsoSettings.Select(setting => setting.Iso))}.");

    /// <summary>The geometry of its frames.</summary>
    public MosaicLayout Layout()
    {
        var masked = new List<PixelRectangle>();
        if (MaskedLeftPixels > 0)
        {
            masked.Add(new PixelRectangle(0, MaskedTopPixels, MaskedLeftPixels, HeightPixels));
        }

        if (MaskedTopPixels > 0)
        {
            masked.Add(new PixelRectangle(0, 0, MaskedLeftPixels + WidthPixels, MaskedTopPixels));
        }

        return new MosaicLayout
        {
            WidthPixels = MaskedLeftPixels + WidthPixels,
            HeightPixels = MaskedTopPixels + HeightPixels,
            ActiveArea = new PixelRectangle(MaskedLeftPixels, MaskedTopPixels, WidthPixels, HeightPixels),
            MaskedAreas = masked,
            ColourFilterArray = Filters,
            BitDepth = BitDepth,
        };
    }

    /// <summary>The part of a setting's read noise that every pixel draws for itself, in e⁻.</summary>
    internal double PixelNoiseElectron(VirtualIso setting)
    {
        double read = setting.ReadNoiseElectron;
        return Math.Sqrt((read * read) - (RowNoiseElectron * RowNoiseElectron) - (ColumnNoiseElectron * ColumnNoiseElectron));
    }

    /// <summary>The full well of a setting in e⁻.</summary>
    internal double FullWellOf(VirtualIso setting) => setting.FullWellElectron ?? FullWellElectron;

    private static VirtualIso[] DefaultIsoSettings()
    {
        int[] isos = [100, 200, 400, 800, 1600, 3200, 6400, 12800];
        return [.. isos.Select(iso =>
        {
            double gain = BaseGainElectronPerDn * BaseIso / iso;
            double converter = ConverterNoiseDn * gain;
            return new VirtualIso
            {
                Iso = iso,
                GainElectronPerDn = gain,
                ReadNoiseElectron = Math.Sqrt((AmplifierNoiseElectron * AmplifierNoiseElectron) + (converter * converter)),
                MiddleGreyElectron = BaseMiddleGreyElectron * BaseIso / iso,
            };
        })];
    }
}
