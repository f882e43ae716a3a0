using System.Globalization;
using SensorLab.Measurement.Figures;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab;

/// <summary>Fits a finished profile again, from the levels that it holds: another criterion needs no pixels.</summary>
public static class Refit
{
    /// <summary>What the fit itself finds, and finds again; everything else was seen in the frames and stays.</summary>
    private static readonly string[] FoundByFit =
    [
        FindingCode.SaturationNotReached, FindingCode.ShadowNotReached, FindingCode.NoiseBelowStep, FindingCode.ShadowBanded, FindingCode.PreviewAdaptive,
    ];

    /// <summary>Computes a profile's figures anew.</summary>
    /// <param name="profile">A finished profile.</param>
    /// <param name="options">
    /// What the user chose; what is not said stays as the profile has it, criteria included. Jobs do not matter.
    /// </param>
    /// <param name="cancellation">Stops the work, between the parts of an ISO's fit.</param>
    /// <returns>The same profile with its figures fitted again; with the same options, the same figures.</returns>
    /// <exception cref="FrameSetRefusedException">No ISO has what the options ask for.</exception>
    /// <exception cref="CharacterisationOptionsException">A region or a spot is named: the pixels are gone.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    /// <exception cref="ProfileFormatException">A level of the profile contradicts itself, as those of frames cannot; the message names where.</exception>
    public static SensorProfile Of(SensorProfile profile, CharacterisationOptions options, CancellationToken cancellation = default)
    {
        RequireNoPixels(options);
        RequireOfFrames(profile);
        GreyMethod grey = options.Grey ?? (profile.MiddleGrey.Method == GreyMethodName.Saturation ? GreyMethod.Saturation : GreyMethod.Metered);
        double meterStepEv = options.MeterStepEv ?? profile.MiddleGrey.MeterStepEv ?? options.MeterStepInFramesEv;
        Delivery? delivery = options.Delivery ?? profile.Delivery;
        List<Finding> findings = [.. profile.Findings.Where(f => !FoundByFit.Contains(f.Code))];
        List<IsoProfile> isoProfiles = [];
        foreach (IsoProfile iso in profile.IsoProfiles)
        {
            if (grey == GreyMethod.Metered && !iso.Levels.Any(l => l.Role == RoleName.Metered))
            {
                findings.Add(NotMetered(iso.Iso));
                continue;
            }

            var isoOptions = new IsoOptions
            {
                Grey = grey,
                MeterStepEv = meterStepEv,
                SnrCriteria = [.. iso.Latitude.BelowEv.Select(b => b.Snr).Concat(options.AllSnrCriteria).Distinct().OrderDescending()],
                Delivery = delivery,
                SensorPixels = (long)profile.Sensor.WidthPixels * profile.Sensor.HeightPixels,
                DeclaredBlackDn = iso.Channels.Where(c => c.DeclaredBlackDn is not null).ToDictionary(c => c.Name, c => c.DeclaredBlackDn!.Value),
                DeclaredWhiteDn = iso.Channels[0].DeclaredWhiteDn,
            };
            (IsoProfile? fitted, IReadOnlyList<Finding> found) = IsoCharacteriser.Characterise(iso.Iso, iso.Levels, isoOptions, cancellation);
            findings.AddRange(found);
            if (fitted is not null)
            {
                isoProfiles.Add(fitted.Levels.Any(l => l.PreviewCodes is not null) ? fitted : fitted with { Previews = iso.Previews });
            }
        }

        IReadOnlyList<Finding> worstFirst = FindingOrder.WorstFirst(findings);
        return isoProfiles.Count == 0 ? throw new FrameSetRefusedException(worstFirst) : profile with
        {
            FormatVersion = SensorProfile.FormatVersionFor(profile.Sensor),
            Software = ThisSoftware.Identity,
            MiddleGrey = MiddleGreySummary.Of(isoProfiles, grey, meterStepEv),
            Delivery = delivery,
            IsoProfiles = FindingConsequences.Applied(isoProfiles, worstFirst),
            Lights = LightRatioEstimator.Of(isoProfiles),
            Findings = worstFirst,
        };
    }

    private static void RequireNoPixels(CharacterisationOptions options)
    {
        string? option = options.Region is not null ? "--region" : options.Spot is not null ? "--spot" : null;
        if (option is not null)
        {
            throw new CharacterisationOptionsException(
                option,
                "a finished profile holds no pixels to measure elsewhere.",
                "Characterise the frames again with this option, or leave it out.");
        }
    }

    private static void RequireOfFrames(SensorProfile profile)
    {
        for (int i = 0; i < profile.IsoProfiles.Count; i++)
        {
            if (LevelContradictions.FirstOf(profile.IsoProfiles[i]) is { } fault)
            {
                throw new ProfileFormatException(
                    string.Create(CultureInfo.InvariantCulture, $"The profile cannot be fitted again: isoProfiles[{i}].{fault.Path} {fault.Reason}."),
                    "Take the profile as sensorlab characterise wrote it, or characterise the frames again.");
            }
        }
    }

    private static Finding NotMetered(int iso) => new()
    {
        Code = FindingCode.MeteredMissing,
        Severity = FindingSeverity.Refusal,
        Iso = iso,
        Message = string.Create(CultureInfo.InvariantCulture, $"The profile holds no metered frames at ISO {iso}, so middle grey cannot be metered there."),
        Remedy = "Leave --grey out, or characterise a frame set with metered frames.",
    };
}
