using MathNet.Numerics.Distributions;
using SensorLab.Law;
using SensorLab.Measurement.Findings.Response;
using SensorLab.Pixels.Neighbours;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Codes;

/// <summary>raw-filtered: the temporal noise of neighbouring photosites correlates, over the colours or inside a channel, so that something smoothed the raw data, or sharpened them.</summary>
/// <remarks>Row and column noise are taken out before, and defects are not yet replaced by their neighbours.</remarks>
internal sealed class RawFilteredCheck : IIsoCheck
{
    /// <summary>Others of a group of 2 × 2.</summary>
    private const int NeighboursInAGroup = 3;

    private const double LargestOtherShare = 0.25;

    /// <summary>Where more is missing in the variance, no figure of noise should be relied on without a look.</summary>
    private const double LargestNotedLoss = 0.05;

    /// <summary>What <see cref="Figures.FindingConsequences"/> leaves of the figures.</summary>
    private const string Refused = "gain and all that is in electrons is left out, shadow ends and SNR are upper bounds, read noise in DN a lower one";

    /// <summary>The same of noise that looks too bad.</summary>
    private const string RefusedOfSharpened = "gain and all that is in electrons is left out, shadow ends and SNR are lower bounds, read noise in DN an upper one";

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        Filtering? mixed = FilteringSearch.OverColours(evidence);
        Filtering? own = FilteringSearch.InChannels(evidence);
        bool isMixed = mixed is { IsSure: true } || (mixed is not null && own is not { IsSure: true });
        if ((isMixed ? mixed : own) is not { } found)
        {
            yield break;
        }

        if (found.IsSharpened)
        {
            yield return found.IsSure ? Sharpened(evidence.Iso, found, isMixed) : Doubted(evidence.Iso, found, isMixed);
        }
        else if (!isMixed && Grouped(evidence) is { } grouped)
        {
            yield return grouped;
        }
        else if (!isMixed && Directed(evidence) is { } directed)
        {
            yield return directed;
        }
        else
        {
            yield return found.IsSure ? Filtered(evidence.Iso, found, isMixed) : Doubted(evidence.Iso, found, isMixed);
            if (isMixed && found.IsSure && new ResponseKneeCheck().Examine(evidence).Any())
            {
                yield return ClipHidden(evidence.Iso, found);
            }
        }
    }

    /// <summary>Past the well of one colour the neighbours' signal goes on rising, which shows as a knee: at the most by as much as all that a photosite keeps of its own.</summary>
    private static Finding ClipHidden(int iso, Filtering found)
    {
        double most = -Math.Log2(1 - found.Share);
        return FlawFinding.Note(
            FindingCode.ResponseNonlinear,
            iso,
            most / 2,
            "ev",
            $"At ISO {iso} a photosite that is full goes on rising with its neighbours of other colours, of which it takes {found.Share:P1}: texture may end up to {most:F2} stops below the highest code. Not compensated: the bright end's uncertainty allows for it.",
            "Switch off noise reduction in the body; until then place bright tones lower by as much.").In(found.Levels);
    }

    /// <summary>
    /// Noise that goes together along the rows alone, or the columns: what is read one after another keeps a little of the one
    /// before, of its colour or of its place in the repeat, while noise reduction smooths both ways. Null where the other
    /// direction has a part in it.
    /// </summary>
    private static Finding? Directed(IsoEvidence evidence) => new[]
    {
        Directed(evidence, n => n.Along, n => n.Across),
        Directed(evidence, n => n.RepeatAlong, n => n.RepeatAcross),
    }.MaxBy(f => f?.Size);

    private static Finding? Directed(IsoEvidence evidence, Func<NoiseNeighbours, Estimate?> alongRows, Func<NoiseNeighbours, Estimate?> acrossThem)
    {
        Filtering along = FilteringSearch.InDirection(evidence, alongRows);
        Filtering across = FilteringSearch.InDirection(evidence, acrossThem);
        (Filtering more, Filtering less, string lines) = along.Correlation > across.Correlation ? (along, across, "rows") : (across, along, "columns");
        if (!more.IsSure || more.IsSharpened || less.IsThere || less.Correlation > LargestOtherShare * more.Correlation)
        {
            return null;
        }

        bool isLarge = more.Loss > LargestNotedLoss;
        string fate = isLarge ? Refused : "the uncertainties of gain, noise and shadow ends allow for it";
        Finding finding = FlawFinding.Note(
            FindingCode.RawFiltered,
            evidence.Iso,
            more.Correlation,
            "relative",
            $"At ISO {evidence.Iso} neighbouring pixels share their noise along the {lines} (correlation {more.Correlation:P1}), and not the other way ({less.Correlation:P1}). A readout that keeps a little of the pixel before does that; noise reduction smooths both ways as a rule. Not compensated: gain is {more.Loss:P1} too high, and noise looks as much too good; {fate}.",
            "Nothing to shoot again where the body has no noise reduction to switch off; compare this body with others with that share in mind.").In(more.Levels);
        return isLarge ? finding with { Severity = FindingSeverity.Warning } : finding;
    }

    /// <summary>
    /// Noise that photosites share which touch under one filter, and those of the next group do not: they are read together,
    /// while noise reduction knows no groups. Null where others have a part in it, or no filter covers several photosites.
    /// </summary>
    private static Finding? Grouped(IsoEvidence evidence)
    {
        if (!evidence.Levels.Any(l => l.Statistics.Channels.Any(c => c.TemporalNeighbours.Neighbours is { Touching: not null, Apart: not null })))
        {
            return null;
        }

        Filtering inside = FilteringSearch.InDirection(evidence, n => n.Touching ?? n.Sides) with { Neighbours = NeighboursInAGroup };
        Filtering apart = FilteringSearch.InDirection(evidence, n => n.Apart ?? n.Sides);
        return !inside.IsSure || inside.IsSharpened || apart.IsThere || apart.Correlation > LargestOtherShare * inside.Correlation ? null : FlawFinding.Warning(
            FindingCode.RawFiltered,
            evidence.Iso,
            inside.Correlation,
            "relative",
            $"At ISO {evidence.Iso} photosites that touch under one filter share their noise (correlation {inside.Correlation:P1}), and those of the next group do not ({apart.Correlation:P1}): the sensor reads them together, or what was read together was spread over them again (binning); noise reduction knows no groups. Noise of a photosite looks too good, gain too high; not compensated: {Refused}.",
            "Choose the recording mode that reads every photosite by itself, if the body has one; or compare this body only with others that read as many together.").In(inside.Levels);
    }

    private static Finding Filtered(int iso, Filtering found, bool isMixed) => FlawFinding.Warning(
        FindingCode.RawFiltered,
        iso,
        found.Share,
        "relative",
        isMixed
            ? (FormattableString)$"At ISO {iso} neighbouring photosites share their noise over the colours (correlation {found.Correlation:P1}): the raw data were smoothed, each photosite taking {found.Share:P1} from its neighbours of whatever colour. Noise looks too good, gain too high, and the channels' signals are mixed; not compensated: {Refused}."
            : $"At ISO {iso} neighbouring pixels share their noise (correlation {found.Correlation:P1}): the raw data were smoothed, each pixel taking {found.Share:P1} from its neighbours. Noise looks too good, gain too high; not compensated: {Refused}.",
        "Switch off noise reduction in the body, or compare this body only with others that smooth as much.").In(found.Levels);

    private static Finding Doubted(int iso, Filtering found, bool isMixed)
    {
        (string does, string were, string gain, string cause) = found.IsSharpened
            ? ("have noise that goes apart", "sharpened", "low", "sharpening")
            : ("share their noise", "smoothed", "high", "noise reduction");
        return FlawFinding.Note(
            FindingCode.RawFiltered,
            iso,
            found.Share,
            "relative",
            $"At ISO {iso} neighbouring photosites {Whose(isMixed)} may {does} (correlation {found.Correlation:P1}), which chance alone does once in {1 / Normal.CDF(0, 1, -found.Deviations):F0} times. If it is no chance, the raw data were {were} and gain is {Math.Abs(found.Loss):P1} too {gain}; the uncertainties of gain, noise and shadow ends allow for it.",
            $"Shoot the bracket again with {cause} switched off, over a larger region or with more levels: what is chance does not come back.").In(found.Levels);
    }

    private static Finding Sharpened(int iso, Filtering found, bool isMixed) => FlawFinding.Warning(
        FindingCode.RawFiltered,
        iso,
        found.Share,
        "relative",
        $"At ISO {iso} the noise of neighbouring photosites {Whose(isMixed)} goes apart (correlation {found.Correlation:P1}): the raw data were sharpened, or what neighbours give each other was reckoned out, each photosite moved away from its neighbours by {-found.Share:P1} of the difference. Noise looks too bad, gain too low{(isMixed ? ", and the channels' signals are mixed" : "")}; not compensated: {RefusedOfSharpened}.",
        "Switch off sharpening and lens corrections in the body, or compare this body only with others that sharpen as much.").In(found.Levels);

    private static string Whose(bool isMixed) => isMixed ? "of different colours" : "of one colour";
}
