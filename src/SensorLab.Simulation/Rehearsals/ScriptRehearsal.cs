using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Draws;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>How a shot list is shot: the light trimmed by hand, filters that keep what they say within a few percent, lamps of their own colours.</summary>
internal sealed class ScriptRehearsal
{
    private const ulong HandStream = 0x4841_4E44;

    // How far from the edge of the meter's zero a patient hand stops, in EV.
    private const double TrimSlipEv = 0.02;

    // How well a grey filter keeps what it says.
    private const double FilterSlip = 0.05;

    private const int ThirdsPerStop = 3;

    // Looks that the body file does not name: each clips sooner than the one before it, and is lighter at middle grey.
    private const double LookClipStepEv = 0.35;
    private const double LookGreyStepCodes = 5;
    private const double LowestLookClipEv = 0.8;

    // Red and blue of lamps against the bracket's own; after the names that people give them.
    private static readonly Dictionary<string, ChannelSensitivity> LampColours = new(StringComparer.OrdinalIgnoreCase)
    {
        ["daylight"] = new ChannelSensitivity { R = 0.78, G1 = 1, G2 = 1, B = 1.3 },
        ["tungsten"] = new ChannelSensitivity { R = 1.5, G1 = 1, G2 = 1, B = 0.5 },
        ["stage"] = new ChannelSensitivity { R = 0.6, G1 = 1, G2 = 1, B = 1.7 },
    };

    private readonly VirtualBody _body;
    private readonly Dictionary<string, double> _filters = new(StringComparer.Ordinal);
    private RandomStream _hand;
    private double _electronPerSecond;

    /// <summary>Takes body and seed.</summary>
    public ScriptRehearsal(VirtualBody body, ulong seed)
    {
        _body = body;
        _hand = new RandomStream(RandomStream.Mix(seed, HandStream), 0);
    }

    /// <summary>The body with the looks that a script names, in their order; as it was where the script names none or the body has no previews.</summary>
    public static VirtualBody WithLooks(VirtualBody body, IReadOnlyList<ScriptedShot> script)
    {
        string[] names = [.. script.Select(s => s.Look).OfType<string>().Distinct(StringComparer.Ordinal)];
        if (names.Length == 0 || body.Look is not { } first)
        {
            return body;
        }

        PreviewLook[] known = [.. body.Looks];
        PreviewLook[] looks = [.. names.Select((name, i) => (i < known.Length ? known[i] : Further(first, i)) with { Name = name })];
        return body with { Look = looks[0], FurtherLooks = looks[1..] };
    }

    /// <summary>The exposure time of a shot in seconds, as it is and not as it is engraved.</summary>
    public static double SecondsOf(ScriptedShot shot) => Math.Pow(2, Math.Round(ThirdsPerStop * Math.Log2(shot.ExposureSeconds)) / ThirdsPerStop);

    /// <summary>The lamp's colour of a shot; null for the bracket's own lamp.</summary>
    public static ChannelSensitivity? ColourOf(ScriptedShot shot) => shot is { Role: FrameRole.Light, Light: { } name }
        ? LampColours.GetValueOrDefault(name) ?? LampColours["stage"]
        : null;

    /// <summary>Electrons at sensitivity 1 of a shot; a metered one may move the lamp first.</summary>
    public double LightOf(ScriptedShot shot)
    {
        if (shot.Role == FrameRole.Dark)
        {
            return 0;
        }

        double seconds = SecondsOf(shot);
        if (shot is { Role: FrameRole.Metered or FrameRole.Light, TrimEv: > 0 })
        {
            double trimmedEv = shot.TrimEv - (TrimSlipEv * _hand.NextUnit());
            _electronPerSecond = _body.At(shot.Iso).MiddleGreyElectron * Math.Pow(2, trimmedEv) / seconds;
        }

        return _electronPerSecond * seconds * FilterFactor(shot);
    }

    private double FilterFactor(ScriptedShot shot)
    {
        if (shot.FilterStops == 0)
        {
            return 1;
        }

        string filter = shot.LightStep ?? string.Empty;
        if (!_filters.TryGetValue(filter, out double slip))
        {
            slip = 1 + (FilterSlip * ((2 * _hand.NextUnit()) - 1));
            _filters[filter] = slip;
        }

        return slip * Math.Pow(2, -shot.FilterStops);
    }

    private static PreviewLook Further(PreviewLook first, int number) => first with
    {
        ClipEv = Math.Max(LowestLookClipEv, first.ClipEv - (LookClipStepEv * number)),
        MiddleGreyCode = first.MiddleGreyCode + (LookGreyStepCodes * number),
    };
}
