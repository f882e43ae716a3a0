using System.Diagnostics;
using SensorLab.Fuzzing.Commands;
using SensorLab.Simulation.Writing;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>OpenCV's library and LibRaw each bring a libjpeg, with the same names and other structures: neither may call the other's.</summary>
public sealed class TwoDecodersTests
{
    /// <summary>A damaged DNG whose picture LibRaw is asked for; the sound frames' pictures were decoded by OpenCV before.</summary>
    private const string Find = "tests/SensorLab.Fuzzing/Finds/raw/picture-for-libraw-after-opencv";

    [Fact]
    public async Task Intake_PicturesByOpenCvThenByLibRaw_GoesOn()
    {
        using var folder = new TemporaryFolder();
        string set = folder.File("set");
        SmallSet.Write(set, new DngOptions { Compression = DngCompression.Lossless, Tile = (32, 32), LosslessJpeg = new LosslessJpegForm { Predictor = 6 }, IsBehindPreview = true }, hasPreviews: true);
        File.Copy(Path.Combine(Repository.Root, Find), Path.Combine(set, "bracket", "P0019.dng"), overwrite: true);
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "SensorLab.Cli.dll"), "intake", set, "--jobs", "1"]) { RedirectStandardOutput = true, RedirectStandardError = true };
        using Process program = Process.Start(start)!;
        Task<string> error = program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        string output = await program.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);

        Assert.True(program.ExitCode == ExitStatus.Done, $"{program.ExitCode}: {output}{await error}");
    }
}
