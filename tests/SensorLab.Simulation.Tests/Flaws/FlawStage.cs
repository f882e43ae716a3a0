using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Tests.Flaws;

/// <summary>Small rehearsals with flaws.</summary>
internal static class FlawStage
{
    public static RehearsalOptions Options => new()
    {
        Body = new VirtualBody { Shutter = new ShutterSeries { StepsPerStop = 2 } },
        WidthPixels = 48,
        HeightPixels = 32,
        IsoValues = [100, 200],
        Seed = 3,
    };

    public static RehearsalPlan Plan(params string[] flaws) => Plan(Options, flaws);

    public static RehearsalPlan Plan(RehearsalOptions options, params string[] flaws) =>
        RehearsalPlan.Of(options with { Flaws = [.. flaws.Select(FlawRequest.Parse)] });
}
