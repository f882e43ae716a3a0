using SensorLab.Profiles;

namespace SensorLab.Publishing.Bundles;

/// <summary>A profile without what tells one body and its owner from others of the model.</summary>
/// <remarks>
/// Left out: the serial number; names and hashes of files (a hash is a name to whoever has the file); the time. Frames are
/// numbered by role, the same number wherever a frame is named. Words that users or files wrote are searched for all of
/// these too. What stays: maker, model, firmware, recording mode, conditions and the figures. Figures are a fingerprint to
/// whoever holds another profile of the same body, and cannot be published without being one.
/// </remarks>
public static class AnonymousProfile
{
    /// <summary>What is left out, in words, in the order in which it is told.</summary>
    public static IReadOnlyList<string> LeftOut { get; } =
    [
        "the body's serial number",
        "names of files and folders: frames are numbered by role",
        "hashes of the frames, which whoever has a frame could tell it by",
        "the time at which the frames were shot",
        "these and dates where they stood in findings, conditions and names of lights and looks",
    ];

    /// <summary>Leaves out of a profile what would tell whose body it is.</summary>
    /// <param name="profile">The profile.</param>
    /// <returns>A profile of the same figures.</returns>
    public static SensorProfile Of(SensorProfile profile)
    {
        var frames = FrameNumbers.Of(profile);
        var words = new WordCleaner(profile.Body.SerialNumber, frames);
        var lights = new NameCleaner(words, "light", profile.Lights.Select(l => l.Name).Concat(Levels(profile).Select(l => l.Light)));
        var steps = new NameCleaner(words, "step", Levels(profile).Select(l => l.LightStep));
        var looks = new NameCleaner(words, "look", profile.IsoProfiles.SelectMany(i => i.Previews.Select(p => p.Look)).Concat(Levels(profile).SelectMany(l => l.PreviewCodes ?? []).Select(c => c.Look)));
        return profile with
        {
            CreatedUtc = null,
            Body = new BodyIdentity(words.Clean(profile.Body.Maker), words.Clean(profile.Body.Model), null, words.Clean(profile.Body.Firmware)),
            RecordingMode = profile.RecordingMode with
            {
                Shutter = words.Clean(profile.RecordingMode.Shutter),
                Drive = words.Clean(profile.RecordingMode.Drive),
                NoiseReduction = words.Clean(profile.RecordingMode.NoiseReduction),
                Crop = words.Clean(profile.RecordingMode.Crop),
                Description = words.Clean(profile.RecordingMode.Description),
            },
            Conditions = profile.Conditions with
            {
                Light = words.Clean(profile.Conditions.Light),
                Lens = words.Clean(profile.Conditions.Lens),
                Protocol = words.Clean(profile.Conditions.Protocol),
            },
            Assumptions = [.. profile.Assumptions.Select(a => words.Clean(a)!)],
            IsoProfiles = [.. profile.IsoProfiles.Select(iso => Clean(iso, lights, steps, looks))],
            Lights = [.. profile.Lights.Select(l => l with { Name = lights.Clean(l.Name)! })],
            Findings = [.. profile.Findings.Select(f => f with { Frames = [.. f.Frames.Select(frames.NumberOf)], Message = words.Clean(f.Message)!, Remedy = words.Clean(f.Remedy)! })],
            Frames = [.. profile.Frames.Select(f => f with { File = frames.NumberOf(f.File), Sha256 = null })],
        };
    }

    private static IsoProfile Clean(IsoProfile iso, NameCleaner lights, NameCleaner steps, NameCleaner looks) => iso with
    {
        Levels =
        [
            .. iso.Levels.Select(level => level with
            {
                Light = lights.Clean(level.Light),
                LightStep = steps.Clean(level.LightStep),
                PreviewCodes = level.PreviewCodes is { } codes ? [.. codes.Select(c => c with { Look = looks.Clean(c.Look)! })] : null,
            }),
        ],
        Previews = [.. iso.Previews.Select(p => p with { Look = looks.Clean(p.Look)! })],
    };

    private static IEnumerable<LevelRecord> Levels(SensorProfile profile) => profile.IsoProfiles.SelectMany(iso => iso.Levels);
}
