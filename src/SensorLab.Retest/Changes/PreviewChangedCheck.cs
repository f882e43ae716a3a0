using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest.Changes;

/// <summary>preview-changed: a look's preview clips elsewhere, or its tone curve is another.</summary>
internal sealed class PreviewChangedCheck : IChangeCheck
{
    /// <summary>Codes of 255 by which curves may differ: what 0.15 EV, the margin of the clip, move at a curve's steepest.</summary>
    private const double AlikeCodes = 10;

    public IEnumerable<Change> Find(RetestEvidence evidence)
    {
        ComparedFigure[] clips = [.. evidence.ChangedPreviewClips()];
        foreach (ComparedFigure clip in clips)
        {
            yield return new Change(ChangeCode.PreviewChanged, clip.Address.Iso, string.Create(
                CultureInfo.InvariantCulture,
                $"ISO {clip.Address.Iso}: the preview clips {clip.Difference?.Value:+0.00;-0.00} EV from where it did ({LookOf(clip)}). The highlight warning shows sooner or later than you are used to."));
        }

        foreach ((IsoProfile before, IsoProfile after) in evidence.Isos)
        {
            foreach (PreviewProfile was in before.Previews.Where(p => !clips.Any(c => c.Address.Iso == before.Iso && LookOf(c) == p.Look)))
            {
                PreviewProfile? isNow = after.Previews.FirstOrDefault(p => p.Look == was.Look);
                if (isNow is not null && Distance(was.ToneCurve, isNow.ToneCurve) is { } codes && codes > AlikeCodes)
                {
                    yield return new Change(ChangeCode.PreviewChanged, before.Iso, string.Create(
                        CultureInfo.InvariantCulture,
                        $"ISO {before.Iso}: the preview's tone curve differs by up to {codes:0} of 255 codes in the look {was.Look}, while it clips where it did."));
                }
            }
        }
    }

    private static string LookOf(ComparedFigure clip) => clip.Address.Name["previews.".Length..^".clipEv".Length];

    /// <summary>The largest distance of two curves where both are known; null where they do not overlap.</summary>
    private static double? Distance(IReadOnlyList<ToneCurvePoint> first, IReadOnlyList<ToneCurvePoint> second)
    {
        double[] distances = [.. first.Select(p => At(second, p.Ev) is { } code ? Math.Abs(code - p.Code) : (double?)null).OfType<double>()];
        return distances.Length == 0 ? null : distances.Max();
    }

    private static double? At(IReadOnlyList<ToneCurvePoint> curve, double ev)
    {
        for (int i = 1; i < curve.Count; i++)
        {
            (ToneCurvePoint low, ToneCurvePoint high) = (curve[i - 1], curve[i]);
            if (ev >= low.Ev && ev <= high.Ev && high.Ev > low.Ev)
            {
                return low.Code + ((high.Code - low.Code) * (ev - low.Ev) / (high.Ev - low.Ev));
            }
        }

        return null;
    }
}
