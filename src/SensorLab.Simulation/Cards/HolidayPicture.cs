using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Draws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Cards;

/// <summary>An everyday picture: sky over land, things that stand in it, exposed as the body's automatic would.</summary>
internal static class HolidayPicture
{
    private const int MostThings = 14;
    private const double DarkestThing = 0.03;
    private const double LightestThing = 2.5;
    private const double GrainOfLand = 0.5;
    private const int FastestThirds = -30;
    private const int SlowestThirds = -9;

    // Of four pictures one happens to be taken at the set's own aperture and metering.
    private const double AlikeShare = 0.25;

    private static readonly double[] Apertures = [2.8, 4, 8, 11];

    /// <summary>Takes a picture.</summary>
    /// <param name="plan">The rehearsal of the body that takes it.</param>
    /// <param name="number">Its number in the draw.</param>
    /// <param name="stream">What chance decides.</param>
    public static PlannedFrame Of(RehearsalPlan plan, int number, ref RandomStream stream)
    {
        VirtualBody body = plan.Camera.Body;
        VirtualIso setting = body.IsoSettings[(int)(stream.NextUnit() * body.IsoSettings.Count)];
        double seconds = Math.Pow(2, (FastestThirds + Math.Floor(stream.NextUnit() * (SlowestThirds - FastestThirds))) / 3);
        PlannedFrame model = plan.Frames[0];
        bool isAlike = stream.NextUnit() < AlikeShare;
        double aperture = Apertures[(int)(stream.NextUnit() * Apertures.Length)];
        return model with
        {
            Number = number,
            Role = null,
            Look = body.Look,
            Columns = new SortedDictionary<string, string>(StringComparer.Ordinal),
            Raw = model.Raw with
            {
                Metadata = model.Raw.Metadata with
                {
                    Iso = setting.Iso,
                    ExposureSeconds = seconds,
                    ApertureFNumber = isAlike ? model.Raw.Metadata.ApertureFNumber : aperture,
                    Metering = isAlike ? MeteringMode.Spot : MeteringMode.Pattern,
                },
            },
            Exposure = new Exposure
            {
                Setting = setting,
                LightElectron = setting.MiddleGreyElectron * Math.Pow(2, (2 * stream.NextUnit()) - 1),
                ExposureSeconds = seconds,
                Seed = model.Exposure.Seed,
                FrameNumber = (ulong)number,
                Texture = Scene(plan.Camera.Layout.ActiveArea, ref stream),
            },
        };
    }

    private static float[] Scene(PixelRectangle active, ref RandomStream stream)
    {
        var scene = new float[active.Area];
        double horizon = 0.25 + (0.5 * stream.NextUnit());
        double sky = 0.8 + stream.NextUnit();
        double land = 0.1 + (0.4 * stream.NextUnit());
        for (int y = 0; y < active.Height; y++)
        {
            double height = (double)y / active.Height;
            for (int x = 0; x < active.Width; x++)
            {
                double grain = 1 + (GrainOfLand * (stream.NextUnit() - 0.5));
                scene[(y * active.Width) + x] = (float)(height < horizon ? sky * (0.7 + (0.6 * height)) : land * grain);
            }
        }

        int things = 4 + (int)(stream.NextUnit() * (MostThings - 4));
        for (int i = 0; i < things; i++)
        {
            int left = (int)(stream.NextUnit() * active.Width);
            int top = (int)(stream.NextUnit() * active.Height * 0.8);
            int width = 1 + (int)(stream.NextUnit() * active.Width / 4);
            int height = 1 + (int)(stream.NextUnit() * active.Height * 0.7);
            float light = (float)(DarkestThing * Math.Pow(LightestThing / DarkestThing, stream.NextUnit()));
            for (int y = top; y < Math.Min(top + height, active.Height); y++)
            {
                scene.AsSpan((y * active.Width) + left, Math.Min(width, active.Width - left)).Fill(light);
            }
        }

        return scene;
    }
}
