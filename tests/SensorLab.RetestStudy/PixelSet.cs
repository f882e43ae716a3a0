using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.RetestStudy;

/// <summary>One set of the study's body drawn pixel by pixel, and characterised as a user's frames are: with every check of the pixels.</summary>
/// <remarks>Two of the study's ISOs at 240 × 160 photosites; every set scatters as <see cref="StudySetting.Realistic"/> says.</remarks>
internal static class PixelSet
{
    private const int IsoCount = 2;
    private const int WidthPixels = 240;
    private const int HeightPixels = 160;

    private static readonly string Root = Directory.Exists("/dev/shm") ? "/dev/shm" : Path.GetTempPath();

    public static SensorProfile Shoot(StudyBody body, string firmware, int seed)
    {
        string place = Path.Combine(Root, $"sensorlab-retest-{Environment.ProcessId}-{Guid.NewGuid():N}");
        try
        {
            StudyIso[] isos = [.. body.Isos.Take(IsoCount)];
            var options = new RehearsalOptions { Body = BodyOf(body, isos, firmware), IsoValues = [.. isos.Select(i => i.Iso)], Seed = (ulong)seed, Jobs = 1 };
            Directory.CreateDirectory(place);
            string frames = Path.Combine(place, "frames");
            Rehearsal.Write(frames, options);
            return Characterisation.RunAsync(frames, new CharacterisationOptions { Jobs = 1 }).GetAwaiter().GetResult();
        }
        finally
        {
            Directory.Delete(place, recursive: true);
        }
    }

    // Row noise and the fixed pattern are the study's; the seed of the pattern stays, it is one body.
    private static VirtualBody BodyOf(StudyBody body, StudyIso[] isos, string firmware)
    {
        VirtualBody defaults = new();
        return defaults with
        {
            Firmware = firmware,
            WidthPixels = WidthPixels,
            HeightPixels = HeightPixels,
            BlackLevelDn = isos[0].BlackDn,
            PrnuPercent = 100 * StudyBody.PrnuFraction,
            DsnuElectron = StudyBody.DsnuElectron,
            RowNoiseElectron = StudyBody.RowNoiseElectron,
            DarkCurrentElectronPerSecond = StudyBody.DarkCurrentElectronPerSecond,
            Look = null,
            Shooting = new ShootingHabits { FramesPerLevel = 4, DarkFrames = 8 },
            IsoSettings = [.. isos.Select(i => new VirtualIso
            {
                Iso = i.Iso,
                GainElectronPerDn = i.GainElectronPerDn,
                ReadNoiseElectron = i.ReadNoiseElectron,
                MiddleGreyElectron = i.GreyElectron,
                FullWellElectron = i.SaturationDn * i.GainElectronPerDn,
            })],
        };
    }
}
