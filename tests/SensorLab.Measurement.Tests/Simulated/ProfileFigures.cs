using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Simulated;

/// <summary>All figures of an ISO by name.</summary>
internal static class ProfileFigures
{
    public static Dictionary<string, Figure> All(this IsoProfile profile)
    {
        var figures = new Dictionary<string, Figure?>();
        foreach (ChannelProfile c in profile.Channels)
        {
            figures[$"{c.Name} black"] = c.BlackLevelDn;
            figures[$"{c.Name} gain"] = c.GainElectronPerDn;
            figures[$"{c.Name} read noise e⁻"] = c.ReadNoiseElectron;
            figures[$"{c.Name} read noise DN"] = c.ReadNoiseDn;
            figures[$"{c.Name} saturation DN"] = c.SaturationDn;
            figures[$"{c.Name} saturation e⁻"] = c.SaturationElectron;
            figures[$"{c.Name} PRNU"] = c.PrnuPercent;
            figures[$"{c.Name} DSNU"] = c.DsnuElectron;
            figures[$"{c.Name} grey"] = c.MiddleGreyDn;
            figures[$"{c.Name} above"] = c.Latitude.AboveEv;
            foreach (ShadowEnd end in c.Latitude.BelowEv)
            {
                figures[$"{c.Name} below {end.Snr}"] = end.PerPixel;
            }
        }

        return figures.Where(f => f.Value?.Value is not null).ToDictionary(f => f.Key, f => f.Value!);
    }
}
