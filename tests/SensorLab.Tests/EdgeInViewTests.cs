using SensorLab.Frames;
using SensorLab.Intakes;
using SensorLab.Profiles;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Tests;

/// <summary>The edge of the field comes into view in the bracket alone: the metered frames do not show it.</summary>
public sealed class EdgeInViewTests : IDisposable
{
    private const int Width = 240;
    private const int Height = 160;

    /// <summary>Columns that the edge darkens.</summary>
    private const int Edge = 72;

    /// <summary>A cell of the field's map: 240 photosites make 30 cells.</summary>
    private const int Cell = 8;

    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task RunAsync_EdgeAtSomeLevels_MeasuresBesideIt()
    {
        Shoot();

        IntakeReport report = await Intake.RunAsync(_folder, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken);
        SensorProfile profile = await Characterisation.RunAsync(_folder, new CharacterisationOptions { Jobs = 1 }, null, TestContext.Current.CancellationToken);

        Assert.Equal(report.Region, profile.Conditions!.Region);
        Assert.InRange(report.Region!.X, Edge, Edge + Cell);
        Assert.True(report.Region.Width >= Width - Edge - (2 * Cell) && report.Region.Height >= Height - Cell);
    }

    [Fact]
    public async Task RunAsync_RegionNamed_IsMeasuredWhateverTheLevelsShow()
    {
        Shoot();
        var named = new MeasuredRegion(0, 0, 96, 96);

        IntakeReport report = await Intake.RunAsync(_folder, new CharacterisationOptions { Region = named }, null, TestContext.Current.CancellationToken);

        Assert.Equal(named, report.Region);
    }

    private void Shoot()
    {
        RehearsalPlan plan = RehearsalPlan.Of(new RehearsalOptions { IsoValues = [100], WidthPixels = Width, HeightPixels = Height });
        double black = plan.Camera.Body.BlackLevelDn;
        foreach (PlannedFrame frame in plan.Frames)
        {
            PlannedFrame shot = frame.Role == FrameRole.Bracket && frame.Exposure.ExposureSeconds > 0.005
                ? frame with { Exposure = frame.Exposure with { Effects = [(codes, layout) => Darken(codes, layout.WidthPixels, black)] } }
                : frame;
            string path = Path.Combine(_folder, shot.File);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, plan.Encode(shot));
        }
    }

    private static void Darken(Span<ushort> codes, int width, double black)
    {
        for (int i = 0; i < codes.Length; i++)
        {
            if (i % width < Edge)
            {
                codes[i] = (ushort)(black + (0.6 * (codes[i] - black)));
            }
        }
    }
}
