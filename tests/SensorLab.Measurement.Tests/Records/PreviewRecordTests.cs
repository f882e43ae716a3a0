using SensorLab.Measurement.Previews;
using SensorLab.Measurement.Tests.Previews;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Records;

/// <summary>What previews of made-up curves show, as on record.</summary>
public sealed class PreviewRecordTests
{
    private static readonly Dictionary<string, MadeUpPreviews> Sets = new(StringComparer.Ordinal)
    {
        ["shoulder"] = new() { Curve = Shoulder },
        ["shoulder in half stops"] = new() { Curve = Shoulder, FirstEv = -9.3, StepEv = 0.5 },
        ["shoulder in whole stops"] = new() { Curve = Shoulder, FirstEv = -8.6, LastEv = 4.5, StepEv = 1 },
        ["cast"] = new() { Curve = Shoulder, Cast = (0.4, -0.3) },
        ["slight cast"] = new() { Curve = Shoulder, Cast = (0.05, -0.02) },
        ["greyish white and black"] = new() { Curve = ev => Math.Clamp(Shoulder(ev), 14, 236) },
        ["folded ends"] = new() { Curve = ev => Math.Clamp(Shoulder(ev), 0.4, 254.3), Rounds = false },
        ["neither end reached"] = new() { Curve = Shoulder, FirstEv = -3, LastEv = 1 },
        ["one code"] = new() { Curve = _ => 128 },
        ["two points"] = new() { Curve = Shoulder, FirstEv = 2, LastEv = 3.5, StepEv = 1.2 },
        ["straight to both ends"] = new() { Curve = ev => 128 + (40 * ev) },
        ["clip beyond the raw file's"] = new() { Curve = ev => Shoulder(ev - 0.9) },
        ["flickering light"] = new() { Curve = Shoulder, FramesPerLevel = 2, Flickers = frame => frame == 0 ? 0.05 : -0.05 },
        ["adapts from frame to frame"] = new() { Curve = Shoulder, FramesPerLevel = 2, Adapts = frame => frame % 2 == 0 ? 0 : 0.12 },
        ["adapts in flickering light"] = new() { Curve = Shoulder, FramesPerLevel = 3, Adapts = frame => frame % 3 * 0.1, Flickers = frame => frame == 2 ? 0.04 : -0.02 },
        ["adapts from level to level"] = new() { Curve = Shoulder, Adapts = frame => frame % 2 == 0 ? 0.15 : -0.15 },
        ["adapts a shallow curve"] = new() { Curve = ev => 128 + (8 * ev), FramesPerLevel = 2, Adapts = frame => frame % 2 == 0 ? 0 : 0.8 },
    };

    public static TheoryData<string> Names => [.. Sets.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Previews_GiveWhatIsOnRecord(string name)
    {
        (IReadOnlyList<PreviewProfile> previews, IReadOnlyList<Finding> findings) = PreviewEstimator.Of(100, Sets[name].Levels(), MadeUpPreviews.Channels, MadeUpPreviews.Latitude);

        FigureRecord.Verify(previews, findings, $"Previews/{name}");
    }

    /// <summary>Two looks, the flatter one first: it hides less.</summary>
    [Fact]
    public void Looks_InOneSet_GiveWhatIsOnRecord()
    {
        IReadOnlyList<LevelRecord> contrasty = new MadeUpPreviews { Curve = ev => Shoulder((1.3 * ev) + 0.2), Look = "contrasty" }.Levels();
        LevelRecord[] both = [.. new MadeUpPreviews { Curve = Shoulder }.Levels().Zip(contrasty, (flat, steep) => flat with { PreviewCodes = [.. flat.PreviewCodes!, .. steep.PreviewCodes!] })];

        (IReadOnlyList<PreviewProfile> previews, IReadOnlyList<Finding> findings) = PreviewEstimator.Of(100, both, MadeUpPreviews.Channels, MadeUpPreviews.Latitude);

        FigureRecord.Verify(previews, findings, "Previews/two looks");
    }

    /// <summary>A power of light with a shoulder from 200 codes on: it rounds to white 3.4 EV above middle grey.</summary>
    private static double Shoulder(double ev)
    {
        double code = (132 * Math.Pow(2, ev * 0.42)) - 14;
        return code < 200 ? code : 200 + (60 * (1 - Math.Exp((200 - code) / 60)) * 1.02);
    }
}
