using System.Globalization;
using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Retest.Confirm;

/// <summary>Judges whether a profile still describes the body that took a job's frames.</summary>
/// <remarks>
/// Figures are judged by <see cref="ProfileComparison"/>, with its margins and its one interval for all of them; identities,
/// modes and codes by being the same. A body or firmware of another name is not refuted by its name: its figures decide.
/// </remarks>
public static class Confirmation
{
    /// <summary>Share of a step by which spacings may differ, as in a re-test.</summary>
    private const double SameStep = 0.01;

    /// <summary>A declared level may differ by this many DN: blacks are declared as means.</summary>
    private const double SameLevelDn = 0.5;

    private const double FamilyDeviations = 4.5;

    /// <summary>Colours of a scene move the ratio of channels by so much, whatever the sensor does.</summary>
    private const double SceneRatio = 0.05;

    private static readonly string[] JudgedNames = ["blackLevelDn", "readNoiseDn", "gainElectronPerDn"];

    /// <summary>Judges.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="evidence">What the job's frames show.</param>
    /// <param name="margins">The margins, as in a re-test.</param>
    public static ConfirmResult Of(SensorProfile profile, JobEvidence evidence, RetestMargins margins)
    {
        List<ConfirmCheck> identity = [.. Identity(profile, evidence)];
        List<ConfirmCheck> codes = [.. evidence.Isos.SelectMany(iso => Codes(profile, iso))];
        List<ComparedFigure> compared = [.. Figures(profile, evidence, margins)];
        List<ConfirmCheck> figures = [.. compared.Select(Check)];
        ConfirmCheck[] all = [.. identity, .. codes, .. figures];

        // Who or what it is leaves it open; what it does settles it.
        bool isStranger = identity.Any(c => c.Verdict == ConfirmVerdict.Undecided);
        bool isSettled = SettledIsos(compared).Count > 0;
        ConfirmVerdict verdict = all.Any(c => c.Verdict == ConfirmVerdict.Different) ? ConfirmVerdict.Different
            : figures.Concat(codes).Any(c => c.Verdict == ConfirmVerdict.Undecided) || (isStranger && !isSettled) || all.All(c => c.Iso is null) ? ConfirmVerdict.Undecided
            : ConfirmVerdict.Consistent;
        return new ConfirmResult(verdict, all, [.. Wanted(profile, evidence, compared, codes)], [.. Notes(isStranger, compared, verdict), .. evidence.ToldByPixels]);
    }

    private static List<int> SettledIsos(List<ComparedFigure> figures) =>
        [.. figures.GroupBy(f => f.Address.Iso).Where(iso => JudgedNames.All(name => iso.Any(f => f.Address.Name == name)) && iso.All(f => f.Verdict == RetestVerdict.Equivalent)).Select(iso => iso.Key).Order()];

    private static IEnumerable<ConfirmCheck> Identity(SensorProfile profile, JobEvidence evidence)
    {
        foreach (BodyIdentity body in evidence.Bodies)
        {
            string expected = $"{profile.Body.Model} {profile.Body.SerialNumber}".Trim();
            string found = $"{body.Model} {body.SerialNumber}".Trim();
            bool isModel = !Differ(profile.Body.Maker, body.Maker) && !Differ(profile.Body.Model, body.Model);
            bool isBody = !Differ(profile.Body.SerialNumber, body.SerialNumber);
            yield return new ConfirmCheck("body", null, null, ShownValue.Of(expected), ShownValue.Of(found), !isModel ? ConfirmVerdict.Different : isBody ? ConfirmVerdict.Consistent : ConfirmVerdict.Undecided,
                !isModel ? "Another model: no profile of one speaks for the other." : isBody ? "The body that the profile is of, as far as the files say." : "Another body of the model: its figures decide.");
            bool isFirmware = !Differ(profile.Body.Firmware, body.Firmware);
            yield return new ConfirmCheck("firmware", null, null, ShownValue.Of(profile.Body.Firmware), ShownValue.Of(body.Firmware), isFirmware ? ConfirmVerdict.Consistent : ConfirmVerdict.Undecided,
                isFirmware ? "The same firmware, as far as the files say." : "Another firmware: the figures decide.");
        }

        yield return new ConfirmCheck("recordingMode", null, null, ShownValue.Of(profile.RecordingMode.Description ?? "as measured"), ShownValue.Of(evidence.ModeDifferences.Count == 0 ? "the same" : string.Join("; ", evidence.ModeDifferences)),
            evidence.ModeDifferences.Count == 0 ? ConfirmVerdict.Consistent : ConfirmVerdict.Different,
            evidence.ModeDifferences.Count == 0 ? "The same mode, as far as the files say." : "Another mode is another sensor: shoot in the mode that was measured, or measure this one.");
    }

    private static IEnumerable<ConfirmCheck> Codes(SensorProfile profile, IsoEvidence evidence)
    {
        if (profile.IsoProfiles.FirstOrDefault(p => p.Iso == evidence.Iso) is not { } iso)
        {
            yield break;
        }

        foreach ((ChannelProfile known, ChannelEvidence own) in iso.Channels.Join(evidence.Channels, c => c.Name, e => e.Name, (c, e) => (c, e)))
        {
            ConfirmCheck Made(string check, ShownValue expected, ShownValue found, ConfirmVerdict verdict, string message) => new(check, iso.Iso, known.Name, expected, found, verdict, message);

            if (known.DeclaredBlackDn is { } black && own.DeclaredBlackDn is { } ownBlack)
            {
                bool isSame = Math.Abs(black - ownBlack) <= SameLevelDn;
                yield return Made("declaredBlack", ShownValue.Of(black), ShownValue.Of(ownBlack), isSame ? ConfirmVerdict.Consistent : ConfirmVerdict.Undecided,
                    isSame ? "The files declare the same black." : "The files declare another black: where the body declares what it measures, that alone is no change. Dark frames tell.");
            }

            if (known.DeclaredWhiteDn is { } white && own.DeclaredWhiteDn is { } ownWhite)
            {
                bool isSame = Math.Abs(white - ownWhite) <= SameLevelDn;
                yield return Made("declaredWhite", ShownValue.Of(white), ShownValue.Of(ownWhite), isSame ? ConfirmVerdict.Consistent : ConfirmVerdict.Different,
                    isSame ? "The files declare the same white." : "The files declare another white: converters cut highlights elsewhere.");
            }

            if (own.CodeStepDn is { } step)
            {
                double expected = StepOf(iso, known.Name, step);
                bool isSame = Math.Abs(step - expected) <= SameStep * expected;
                yield return Made("codeSteps", ShownValue.Of(expected), ShownValue.Of(step), isSame ? ConfirmVerdict.Consistent : ConfirmVerdict.Different,
                    isSame ? "Codes are spaced as they were." : "Codes are spaced otherwise, with other gaps: fewer bits, a push in the body, or another firmware.");
            }

            int[] piles = [.. iso.Levels.SelectMany(l => l.Channels).Where(c => c.Name == known.Name && c.ClippedFraction > SameStep).Select(c => c.HighestCodeDn).OfType<int>()];
            if (own.PileCodeDn is { } pile && piles.Length > 0)
            {
                bool isSame = pile == piles.Max();
                yield return Made("clipCode", ShownValue.Of((double)piles.Max()), ShownValue.Of((double)pile), isSame ? ConfirmVerdict.Consistent : ConfirmVerdict.Different,
                    isSame ? "Bright photosites pile up at the same code." : "Bright photosites pile up at another code: the clip moved.");
            }

            if (own.RatioNearClip is { } ratio)
            {
                bool isSame = Math.Abs(ratio.Value - 1) <= SceneRatio + (FamilyDeviations * ratio.StandardUncertainty);
                yield return Made("ratioNearClip", ShownValue.Of(1.0), ShownValue.Of(Figure.Normal(ratio.Value, ratio.StandardUncertainty)), isSame ? ConfirmVerdict.Consistent : ConfirmVerdict.Undecided,
                    isSame ? "Channels keep their ratio up to the clip, as in the profile." : "Channels do not keep their ratio near the clip as in the profile: the response bends otherwise there, or the scenes' highlights have other colours. A new bracket tells.");
            }

            foreach (ConfirmCheck masked in Masked(iso, known, own))
            {
                yield return masked;
            }
        }
    }

    // Masked photosites may stand a little elsewhere than the active ones: where they agree they confirm, where not they ask.
    private static IEnumerable<ConfirmCheck> Masked(IsoProfile iso, ChannelProfile known, ChannelEvidence own)
    {
        if (known.BlackLevelDn is { Value: { } black } level && own.MaskedMeanDn is { } mean)
        {
            double room = 1 + (FamilyDeviations * double.Hypot(mean.StandardUncertainty, level.OfBody().StandardUncertainty ?? 0));
            bool isSame = Math.Abs(mean.Value - black) <= room;
            yield return new ConfirmCheck("maskedBlack", iso.Iso, known.Name, ShownValue.Of(level), ShownValue.Of(Figure.Normal(mean.Value, mean.StandardUncertainty)), isSame ? ConfirmVerdict.Consistent : ConfirmVerdict.Undecided,
                isSame ? "Masked photosites stand at the profile's black." : "Masked photosites stand elsewhere than the profile's black; on some bodies they always do. Dark frames tell.");
        }

        if (PublishedModel.Of(iso, known) is { } model && own.MaskedNoiseDn is { } noise)
        {
            double expected = Math.Sqrt(model.TotalVarianceAt(0));
            double room = (0.05 * expected) + (FamilyDeviations * noise.StandardUncertainty);
            bool isSame = Math.Abs(noise.Value - expected) <= room;
            yield return new ConfirmCheck("maskedNoise", iso.Iso, known.Name, ShownValue.Of(expected), ShownValue.Of(Figure.Normal(noise.Value, noise.StandardUncertainty)), isSame ? ConfirmVerdict.Consistent : ConfirmVerdict.Undecided,
                isSame ? "Masked photosites are as noisy as the profile's darkness." : "Masked photosites are noisier or quieter than the profile's darkness. Dark frames tell.");
        }
    }

    // Everyday codes are of light: a lit level's spacing where one tells more than the dark ones', which a maker's curve or a push makes wider.
    private static double StepOf(IsoProfile iso, string channel, double found) => iso.Levels
        .SelectMany(l => l.Channels)
        .Where(c => c.Name == channel)
        .Select(c => c.CodeStepDn)
        .DefaultIfEmpty(1)
        .MinBy(step => Math.Abs(step - found));

    private static IEnumerable<ComparedFigure> Figures(SensorProfile profile, JobEvidence evidence, RetestMargins margins)
    {
        if (EvidenceProfile.Of(profile, evidence) is not { } measured)
        {
            return [];
        }

        try
        {
            return ProfileComparison.Of(profile, measured, [], margins).Figures.Where(f => f.Margin is not null);
        }
        catch (ProfilesNotComparableException)
        {
            return [];
        }
    }

    private static ConfirmCheck Check(ComparedFigure figure) => new(
        figure.Address.Name,
        figure.Address.Iso,
        figure.Address.Channel,
        ShownValue.Of(figure.Before),
        ShownValue.Of(figure.After),
        figure.Verdict switch
        {
            RetestVerdict.Equivalent => ConfirmVerdict.Consistent,
            RetestVerdict.Changed => ConfirmVerdict.Different,
            _ => ConfirmVerdict.Undecided,
        },
        $"{FigureName.WordsOf(figure.Address.Name)}: {DifferenceText.Of(figure.Difference, figure.Unit)}");

    private static IEnumerable<string> Wanted(SensorProfile profile, JobEvidence evidence, List<ComparedFigure> figures, List<ConfirmCheck> codes)
    {
        int[] isos = [.. evidence.Isos.Select(i => i.Iso).Where(iso => profile.IsoProfiles.Any(p => p.Iso == iso)).Order()];
        if (isos.Length == 0)
        {
            isos = [.. profile.IsoProfiles.Select(p => p.Iso).Take(1)];
        }

        int[] without(string name) => [.. isos.Where(iso => !figures.Any(f => f.Address.Iso == iso && f.Address.Name == name))];
        int[] dark = without("blackLevelDn");
        int[] lit = without("gainElectronPerDn");
        if (dark.Length > 0)
        {
            string doubt = codes.Any(c => c.Verdict == ConfirmVerdict.Undecided && dark.Contains(c.Iso ?? 0)) ? " These settle what masked photosites or declared levels leave open." : string.Empty;
            yield return $"Five dark frames at ISO {Named(dark)}, at one exposure time: lens cap on, eyepiece covered. They tell black and read noise.{doubt}";
        }

        if (lit.Length > 0)
        {
            yield return $"Five frames of an even, unfocused field at ISO {Named(lit)}, the spot meter at zero, at one exposure, the camera on a stand. They tell the gain.";
        }

        int[] bent = [.. codes.Where(c => c is { Check: "ratioNearClip", Verdict: ConfirmVerdict.Undecided, Iso: not null }).Select(c => c.Iso!.Value).Distinct().Order()];
        if (bent.Length > 0)
        {
            yield return $"A bracket of an even field at ISO {Named(bent)}, from two stops under the clip up to it, characterised: it tells whether the highlights bend.";
        }

        ComparedFigure[] open = [.. figures.Where(f => f.Verdict == RetestVerdict.Undecided)];
        foreach (IGrouping<int, ComparedFigure> iso in open.GroupBy(f => f.Address.Iso))
        {
            string kinds = iso.All(f => f.Address.Name == "gainElectronPerDn") ? "metered" : iso.Any(f => f.Address.Name == "gainElectronPerDn") ? "dark and metered" : "dark";
            yield return string.Create(CultureInfo.InvariantCulture, $"Ten {kinds} frames more at ISO {iso.Key}: {string.Join(", ", iso.Select(f => FigureName.WordsOf(f.Address.Name)).Distinct())} may or may not have changed.");
        }
    }

    private static IEnumerable<string> Notes(bool isStranger, List<ComparedFigure> figures, ConfirmVerdict verdict)
    {
        List<int> settled = SettledIsos(figures);
        if (isStranger && verdict == ConfirmVerdict.Consistent)
        {
            string larger = string.Join(", ", JudgedNames.Select(name => $"{FigureName.WordsOf(name)} within {DifferenceText.Of(Widest(figures, name), figures.First(f => f.Address.Name == name).Unit)}"));
            yield return $"The profile can be used for these frames at ISO {Named([.. settled])}. The bodies' own difference adds to its uncertainty: {larger} (the widest of the channels). Saturation and middle grey were not compared.";
        }
        else if (figures.Count == 0)
        {
            yield return "Nothing here was measured that gain or black hang on: the files agree with the profile in what they say and how they are coded.";
        }
    }

    private static Figure? Widest(List<ComparedFigure> figures, string name) => figures
        .Where(f => f.Address.Name == name && f.Difference?.Value is not null)
        .MaxBy(f => Math.Max(Math.Abs(f.Difference!.Lower95!.Value), Math.Abs(f.Difference.Upper95!.Value)))?.Difference;

    private static string Named(int[] isos) => string.Join(", ", isos.Select(iso => iso.ToString(CultureInfo.InvariantCulture)));

    private static bool Differ(string? first, string? second) => first is not null && second is not null && first != second;
}
