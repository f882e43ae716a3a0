using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using SensorLab.Bench.Api;
using SensorLab.Frames;
using SensorLab.RawFiles;
using SensorLab.Simulation.Bodies;
using SensorLab.TestData;

namespace SensorLab.Bench.Tests;

/// <summary>How soon a frame of 24 megapixels is spoken of, good or not, beside the time that one core takes to decode it.</summary>
public sealed class PromptnessTests
{
    /// <summary>A file is whole when two looks find it alike, and the first may just have missed it.</summary>
    private const int LooksToWait = 2;

    /// <summary>Times a frame's decoding that may pass beyond the looks: its sample, and the telling of all frames.</summary>
    private const double MostDecodings = 4;

    private readonly List<(string What, double Said, double Decoding)> _times = [];

    [Fact]
    [Trait("Category", "Study")]
    public async Task TenFlaws_OfAnEveningOf24Megapixels_AreSaidSoonAfterTheirFramesStandStill()
    {
        var evening = new RehearsedEvening(new VirtualBody { WidthPixels = 6000, HeightPixels = 4000 });
        TimeSpan poll = new BenchOptions().PollInterval;
        await using RunningBench bench = await RunningBench.StartAsync(o => o with { PollInterval = poll });
        await bench.OpenAsync(evening.PlanDocument);
        foreach (string figure in (await bench.StateAsync()).Wanted.Keys)
        {
            // Out of reach: large frames have enough before the plan's end, and what is skipped cannot be passed over.
            await bench.WantAsync(figure, 1e-9);
        }

        int shot = 0;
        foreach ((string flaw, FlawedShot flawed) in FlawedShot.All.Select(row => (row.Data, Shot: new FlawedShot(row.Data, evening))).OrderBy(f => f.Shot.At))
        {
            for (; shot < flawed.At; shot++)
            {
                int count = shot + 1;
                BenchState good = await TimeAsync(bench, "a good frame", RehearsedEvening.NameOf(shot), evening.FileOf(evening.Frames[shot]), s => s.Frames.Assigned == count);
                Assert.True(good.Verdict!.IsGood, good.Verdict.Words);
            }

            BenchState told = await TimeAsync(bench, flaw, flawed.Name, flawed.File(), flawed.IsTold);
            Assert.True(flawed.IsSaid(told), $"{flaw}: {JsonSerializer.Serialize(told, BenchJson.Default.BenchState)}");
            File.Delete(Path.Combine(bench.Card, flawed.Name));
            await bench.UntilAsync(s => s.Frames is { Refused: 0 } f && f.Seen == shot, "the flawed frame is gone");
        }

        double[] decodings = [.. _times.Select(t => t.Decoding).Where(double.IsFinite).Order()];
        double decoding = decodings[decodings.Length / 2];
        double beyond = _times.Select(t => t.Said).Order().ElementAt(_times.Count / 2) - (LooksToWait * poll.TotalSeconds);
        Report(decoding, shot);
        Assert.True(beyond < MostDecodings * decoding, $"{beyond} s beyond the looks, {decoding} s to decode.");
    }

    // From the moment at which the file has its name, as a tethering program or a card gives it.
    private async Task<BenchState> TimeAsync(RunningBench bench, string what, string name, byte[] file, Func<BenchState, bool> isTold)
    {
        string coming = bench.Beside("coming");
        await File.WriteAllBytesAsync(coming, file, TestContext.Current.CancellationToken);
        string path = Path.Combine(bench.Card, name);
        File.Move(coming, path);
        long began = Stopwatch.GetTimestamp();
        BenchState told = await bench.UntilAsync(isTold, $"{what} is told");
        double said = Stopwatch.GetElapsedTime(began).TotalSeconds;
        _times.Add((what, said, what == "cut off" ? double.NaN : DecodingOf(path)));
        return told;
    }

    private void Report(double decoding, int good)
    {
        double[] ofGood = [.. _times.Where(t => t.What == "a good frame").Select(t => t.Said).Order()];
        string rows = string.Join('\n', _times.Where(t => t.What != "a good frame").Select(t => string.Create(CultureInfo.InvariantCulture, $"| {t.What} | {t.Said:F2} | {t.Said / decoding:F0} |")));
        string text = string.Create(CultureInfo.InvariantCulture, $"""
            From the moment at which the file has its name, in an evening of {good} good frames, a look every {new BenchOptions().PollInterval.TotalSeconds} s and two looks to be sure that a file stands still. A frame is decoded in {1000 * decoding:F0} ms by one core. A file that is cut off may still be on its way: until five looks found it alike it is said to be waited for.

            | frame | said after, s | times its decoding |
            | --- | --- | --- |
            {rows}
            | {good} good ones, the median | {ofGood[good / 2]:F2} | {ofGood[good / 2] / decoding:F0} |
            | {good} good ones, the last | {ofGood[^1]:F2} | {ofGood[^1] / decoding:F0} |
            """);
        TestContext.Current.TestOutputHelper!.WriteLine(text);
        if (Environment.GetEnvironmentVariable("SENSORLAB_WRITE_RESULTS") is not null)
        {
            StudyResults.Write("tests/SensorLab.Bench.Tests", "Ten flaws of an evening of 24 megapixels", "bash tests/studies.sh bench", text);
        }
    }

    private static double DecodingOf(string path)
    {
        long began = Stopwatch.GetTimestamp();
        using IMosaicReader reader = RawFileOpener.Open(path);
        using var rows = new RowBuffer(reader);
        for (int row = 0; row < reader.Frame.Layout.HeightPixels; row++)
        {
            rows.Next();
        }

        return Stopwatch.GetElapsedTime(began).TotalSeconds;
    }
}
