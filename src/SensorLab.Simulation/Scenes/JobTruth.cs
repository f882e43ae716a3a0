using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Scenes;

/// <summary>What is true of a frame of an assignment, from the scene and the body and never from pixels.</summary>
public static class JobTruth
{
    private const double Percent = 100;

    /// <summary>Stops from a tone to where the first channel saturates.</summary>
    /// <param name="body">The body.</param>
    /// <param name="shot">The frame.</param>
    /// <param name="toneEv">The tone in the scene.</param>
    /// <param name="colour">Its colour.</param>
    /// <returns>Negative for a tone beyond the clip.</returns>
    public static double HeadroomEv(VirtualBody body, JobShot shot, double toneEv, SceneColour colour)
    {
        VirtualIso setting = body.At(shot.Iso);
        double saturating = new SensorLaw(body, setting).SaturatingElectron;
        double light = setting.MiddleGreyElectron * Math.Pow(2, shot.ExposureEv + toneEv);
        return body.Filters.Channels.Min(channel => Math.Log2(saturating / (light * body.ChannelSensitivity.Of(channel) * colour.Of(channel))));
    }

    /// <summary>Share of a channel's photosites in percent that more light would no longer move, hot ones included.</summary>
    /// <param name="body">The body.</param>
    /// <param name="shot">The frame.</param>
    /// <param name="channel">The channel.</param>
    public static double ClippedPercent(VirtualBody body, JobShot shot, SensorChannel channel)
    {
        VirtualIso setting = body.At(shot.Iso);
        double saturating = new SensorLaw(body, setting).SaturatingElectron;
        double light = setting.MiddleGreyElectron * Math.Pow(2, shot.ExposureEv) * body.ChannelSensitivity.Of(channel);
        HashSet<int> hot = [.. shot.Scene.Hot];
        return ShareOf(body, channel, index => hot.Contains(index) || light * shot.Scene.Light[index] >= saturating);
    }

    /// <summary>Share of the first green's photosites (or a monochrome sensor's) in percent whose tone has an SNR below a criterion.</summary>
    /// <param name="body">The body.</param>
    /// <param name="shot">The frame.</param>
    /// <param name="snr">The criterion.</param>
    public static double SunkPercent(VirtualBody body, JobShot shot, double snr)
    {
        VirtualIso setting = body.At(shot.Iso);
        double criterion = new SensorLaw(body, setting).ElectronAtSnr(snr) ?? double.PositiveInfinity;
        SensorChannel green = body.Filters.IsMonochrome ? SensorChannel.Y : SensorChannel.G1;
        double light = setting.MiddleGreyElectron * Math.Pow(2, shot.ExposureEv) * body.ChannelSensitivity.Of(green);
        return ShareOf(body, green, index => light * shot.Scene.Light[index] < criterion);
    }

    private static double ShareOf(VirtualBody body, SensorChannel channel, Func<int, bool> counts)
    {
        (long all, long hit) = (0, 0);
        for (int y = 0; y < body.HeightPixels; y++)
        {
            for (int x = 0; x < body.WidthPixels; x++)
            {
                if (body.Filters.ChannelAt(y, x) == channel)
                {
                    all++;
                    hit += counts((y * body.WidthPixels) + x) ? 1 : 0;
                }
            }
        }

        return Percent * hit / all;
    }
}
