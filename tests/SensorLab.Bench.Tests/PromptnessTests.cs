using System.Diagnostics;
using System.Globalization;
using SensorLab.Bench.Api;
using SensorLab.Frames;
using SensorLab.RawFiles;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Bench.Tests;

/// <summary>How soon a frame of 24 megapixels is spoken of, beside the time that one core takes to decode it.</summary>
public sealed class PromptnessTests
{
    private const int Frames = 12;

    /// <summary>A file is whole when two looks find it alike, and the first may just have missed it.</summary>
    private const int LooksToWait = 2;

    /// <summary>Times a frame's decoding that may pass beyond the looks: its sample, and the telling of all frames.</summary>
    private const double MostDecodings = 4;

    [Fact]
    [Trait("Category", "Study")]
    public async Task Frame_Of24Megapixels_IsSpokenOfSoonAfterItStandsStill()
    {
        var evening = new RehearsedEvening(new VirtualBody { WidthPixels = 6000, HeightPixels = 4000 });
        TimeSpan poll = new BenchOptions().PollInterval;
        await using RunningBench bench = await RunningBench.StartAsync(o => o with { PollInterval = poll });
        await bench.OpenAsync(evening.PlanDocument);
        List<(double Said, double Decoding)> times = [];
        for (int i = 0; i < Frames; i++)
        {
            PlannedFrame frame = i % 3 == 2 ? RehearsedEvening.Saying(evening.Frames[i], iso: 3200) : evening.Frames[i];
            string coming = bench.Beside("coming");
            await File.WriteAllBytesAsync(coming, evening.FileOf(frame), TestContext.Current.CancellationToken);
            int serial = (await bench.StateAsync()).Verdict?.Serial ?? 0;
            string name = Path.Combine(bench.Card, RehearsedEvening.NameOf(i));
            File.Move(coming, name);
            long began = Stopwatch.GetTimestamp();
            BenchState told = await bench.UntilAsync(s => s.Verdict?.Serial > serial, "the frame is spoken of");
            double said = Stopwatch.GetElapsedTime(began).TotalSeconds;
            Assert.Equal(i % 3 != 2, told.Verdict!.IsGood);
            times.Add((said, DecodingOf(name)));
        }

        double decoding = times.Select(t => t.Decoding).Order().ElementAt(Frames / 2);
        double beyond = times.Select(t => t.Said).Order().ElementAt(Frames / 2) - (LooksToWait * poll.TotalSeconds);
        TestContext.Current.TestOutputHelper!.WriteLine(string.Create(CultureInfo.InvariantCulture, $"said after {string.Join(" ", times.Select(t => $"{t.Said:F2}"))} s; decoded in {string.Join(" ", times.Select(t => $"{t.Decoding:F2}"))} s; beyond two looks {beyond / decoding:F2} of a decoding"));

        Assert.True(beyond < MostDecodings * decoding, $"{beyond} s beyond the looks, {decoding} s to decode.");
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
