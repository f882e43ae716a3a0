using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Flaws;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>What a rehearsal's options ask for, held against what there is.</summary>
internal static class RehearsalRequest
{
    /// <summary>The body at the size asked for.</summary>
    /// <exception cref="RehearsalUsageException">The size is impossible.</exception>
    public static VirtualBody BodyOf(RehearsalOptions options)
    {
        if (options.WidthPixels is < 2 or > 65_534 || options.HeightPixels is < 2 or > 65_534)
        {
            throw new RehearsalUsageException("The size of a rehearsal's frames must be 2x2 to 65534x65534 photosites.");
        }

        return options.Body with
        {
            WidthPixels = options.WidthPixels ?? options.Body.WidthPixels,
            HeightPixels = options.HeightPixels ?? options.Body.HeightPixels,
        };
    }

    /// <summary>The ISO settings asked for, or three two stops apart where the body has full stops.</summary>
    /// <exception cref="RehearsalUsageException">The body lacks one, or one is named twice.</exception>
    public static IReadOnlyList<int> IsoValuesOf(RehearsalOptions options, VirtualBody body)
    {
        int[] known = [.. body.IsoSettings.Select(setting => setting.Iso).Order()];
        foreach (int iso in options.IsoValues)
        {
            if (!known.Contains(iso))
            {
                throw new RehearsalUsageException($"The body has no ISO {iso}; it has {string.Join(", ", known)}.");
            }

            if (options.IsoValues.Count(other => other == iso) > 1)
            {
                throw new RehearsalUsageException($"ISO {iso} is named twice.");
            }
        }

        if (options.Script.Count > 0)
        {
            return IsosOf(options.Script, known);
        }

        return options.IsoValues.Count > 0 ? options.IsoValues : [.. known.Where((_, i) => i is 0 or 2 or 4)];
    }

    private static int[] IsosOf(IReadOnlyList<ScriptedShot> script, int[] known)
    {
        int[] isos = [.. script.Select(shot => shot.Iso).Distinct()];
        int[] missing = [.. isos.Except(known)];
        return missing.Length == 0 ? isos : throw new RehearsalUsageException(
            $"The plan asks for ISO {string.Join(", ", missing)}, which this body does not have; it has {string.Join(", ", known)}. Plan for those, or name a body that has them.");
    }

    /// <summary>The flaws asked for, each with its size, in their turn.</summary>
    /// <exception cref="RehearsalUsageException">A flaw is unknown, named twice, or of impossible size.</exception>
    public static AppliedFlaw[] FlawsOf(RehearsalOptions options)
    {
        if (options.Flaws.GroupBy(request => request.Code).FirstOrDefault(group => group.Count() > 1) is { } twice)
        {
            throw new RehearsalUsageException($"The flaw {twice.Key} is named twice.");
        }

        return [.. options.Flaws.Select(FlawCatalogue.Resolve).OrderBy(applied => applied.Flaw.Turn)];
    }
}
