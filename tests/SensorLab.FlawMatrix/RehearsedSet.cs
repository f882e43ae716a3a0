using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.FlawMatrix;

/// <summary>A rehearsed frame set, its truth, and what came of it by the way that every user's frames go.</summary>
/// <param name="Truth">What is true of each ISO.</param>
/// <param name="Profile">The profile; null for a set that was refused.</param>
/// <param name="Findings">What was found.</param>
/// <param name="Failure">What went wrong otherwise; null where nothing did.</param>
internal sealed record RehearsedSet(IReadOnlyList<IsoTruth> Truth, SensorProfile? Profile, IReadOnlyList<Finding> Findings, string? Failure)
{
    /// <summary>Memory where the system has it as a folder: thousands of sets are written and read through the real files' path.</summary>
    private static readonly string Root = Directory.Exists("/dev/shm") ? "/dev/shm" : Path.GetTempPath();

    /// <summary>Rehearses and characterises a set.</summary>
    /// <param name="body">The body; its fixed pattern is drawn anew for each seed.</param>
    /// <param name="isos">The ISO settings.</param>
    /// <param name="seed">The seed.</param>
    /// <param name="flaws">What goes wrong.</param>
    /// <param name="scale">By how much rows and columns are more than the body's.</param>
    public static async Task<RehearsedSet> RunAsync(VirtualBody body, IReadOnlyList<int> isos, ulong seed, IReadOnlyList<FlawRequest> flaws, int scale)
    {
        string place = Path.Combine(Root, $"sensorlab-matrix-{Environment.ProcessId}-{Guid.NewGuid():N}");
        IReadOnlyList<IsoTruth> truth = [];
        try
        {
            var options = new RehearsalOptions
            {
                Body = body with
                {
                    PatternSeed = seed,
                    WidthPixels = scale * body.WidthPixels,
                    HeightPixels = scale * body.HeightPixels,

                    // Previews cost a third of the time and serve their own flaws alone.
                    Look = flaws.Any(f => f.Code.StartsWith("preview-", StringComparison.Ordinal)) ? body.Look : null,
                },
                IsoValues = isos,
                Seed = seed,
                Flaws = flaws,
                Jobs = 1,
            };
            Directory.CreateDirectory(place);
            string frames = Path.Combine(place, "frames");
            truth = Rehearsal.Write(frames, options);
            SensorProfile profile = await Characterisation.RunAsync(frames, new CharacterisationOptions { Jobs = 1 });
            return new RehearsedSet(truth, profile, profile.Findings, null);
        }
        catch (FrameSetRefusedException e)
        {
            return new RehearsedSet(truth, null, e.Findings, null);
        }
#pragma warning disable CA1031 // Whatever breaks is a result of the study.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return new RehearsedSet(truth, null, [], e.ToString());
        }
        finally
        {
            Directory.Delete(place, recursive: true);
        }
    }

    /// <summary>Whether a finding names a flaw at an ISO.</summary>
    public bool Names(string code, int iso) => Findings.Any(f => f.Code == code && (f.Iso is null || f.Iso == iso));
}
