using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using SensorLab.Cli;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Bench.Tests;

/// <summary>The protocol evening at two ISOs, shot by a simulated body in the bench's order; one for all tests of a class.</summary>
public sealed class RehearsedEvening
{
    private static readonly DateTimeOffset Dusk = new(2026, 4, 18, 19, 0, 0, TimeSpan.Zero);

    private readonly RehearsalPlan _set;

    public RehearsedEvening()
        : this(new VirtualBody { WidthPixels = 300, HeightPixels = 200 })
    {
    }

    internal RehearsedEvening(VirtualBody body)
    {
        Plan = LiveOrder.Of(ShotPlanner.Plan(new PlanRequest { Protocol = ProtocolLibrary.Find("evening")!, Isos = [100, 800] }));
        _set = RehearsalPlan.Of(new RehearsalOptions { Body = body, Script = RehearsedPlan.Of(Plan, []) });
        Frames = [.. _set.Frames.OrderBy(f => f.Number)];
    }

    public ShotPlan Plan { get; }

    public JsonObject PlanDocument => JsonNode.Parse(Encoding.UTF8.GetString(ShotPlanDocument.Write(Plan)))!.AsObject();

    /// <summary>The frames in shooting order.</summary>
    public IReadOnlyList<PlannedFrame> Frames { get; }

    /// <summary>Where in the shooting order a step begins.</summary>
    public int IndexOf(PlanStep step) => Plan.Steps.TakeWhile(s => s.Number != step.Number).Sum(s => s.Frames);

    /// <summary>The step of a frame.</summary>
    public PlanStep StepOf(int index) => Plan.Steps.SelectMany(s => Enumerable.Repeat(s, s.Frames)).ElementAt(index);

    /// <summary>A frame's file, as the camera writes it.</summary>
    public byte[] FileOf(PlannedFrame frame) => _set.Encode(frame);

    /// <summary>Puts a frame into a folder under the name that the camera counts to.</summary>
    public string Shoot(string folder, int index) => Shoot(folder, Frames[index], index);

    /// <summary>Puts a frame into a folder, taken later than all others where it is shot again.</summary>
    public string Shoot(string folder, PlannedFrame frame, int count)
    {
        string name = NameOf(count);
        File.WriteAllBytes(Path.Combine(folder, name), FileOf(frame));
        return name;
    }

    public static string NameOf(int count) => string.Create(CultureInfo.InvariantCulture, $"SKY_{count + 1:0000}.DNG");

    /// <summary>A frame in more or less light, by EV.</summary>
    public static PlannedFrame Lit(PlannedFrame frame, double ev) => frame with { Exposure = frame.Exposure with { LightElectron = frame.Exposure.LightElectron * Math.Pow(2, ev) } };

    /// <summary>A frame that says another ISO, exposure or time of itself.</summary>
    public static PlannedFrame Saying(PlannedFrame frame, int? iso = null, double? seconds = null, int? minute = null) => frame with
    {
        Raw = frame.Raw with
        {
            Metadata = frame.Raw.Metadata with
            {
                Iso = iso ?? frame.Raw.Metadata.Iso,
                ExposureSeconds = seconds ?? frame.Raw.Metadata.ExposureSeconds,
                CaptureTime = minute is { } m ? Dusk.AddMinutes(m) : frame.Raw.Metadata.CaptureTime,
            },
        },
    };
}
