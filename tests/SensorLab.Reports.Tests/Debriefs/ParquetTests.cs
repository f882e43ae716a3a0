using System.Reflection;
using System.Runtime.InteropServices;
using DuckDB.NET.Native;
using SensorLab.Debrief;
using SensorLab.Reports.Tables;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Debriefs;

/// <summary>Our Parquet, read by DuckDB, which shares nothing with it.</summary>
public sealed class ParquetTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    static ParquetTests() => NativeLibrary.SetDllImportResolver(typeof(NativeMethods).Assembly, (name, _, _) => name == "duckdb" ? NativeLibrary.Load(LibraryPath()) : 0);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Parquet_EveryKindAndAbsence_ReadsBack()
    {
        ParquetColumn[] columns =
        [
            new("truth", ParquetKind.Boolean, [true, null, false, true, true, false, null, true, true]),
            new("whole", ParquetKind.Int32, [1, -2, null, int.MaxValue, int.MinValue, 0, 7, 8, 9]),
            new("number", ParquetKind.Double, [0.1, null, -1e300, double.Epsilon, 3.0, null, null, 1.5, 2.5]),
            new("text", ParquetKind.Text, ["a", "", null, "Grüße, \"x\"\n", "日本", "e", "f", "g", "h"]),
            new("moment", ParquetKind.Moment, [new DateTimeOffset(2026, 4, 18, 9, 30, 0, 250, TimeSpan.FromHours(2)), null, null, null, null, null, null, null, null]),
        ];
        string file = _folder.File("t.parquet");
        File.WriteAllBytes(file, ParquetTable.Of(columns, "test"));

        List<object?[]> rows = DuckDbRows.Of($"select truth, whole, number, text, epoch_ms(moment) from '{file}'");

        Assert.Equal(9, rows.Count);
        for (int row = 0; row < 9; row++)
        {
            Assert.Equal(columns[..4].Select(c => c.Values[row]), rows[row][..4]);
        }

        Assert.Equal(((DateTimeOffset)columns[4].Values[0]!).ToUnixTimeMilliseconds(), rows[0][4]);
        Assert.Null(rows[1][4]);
        Assert.Equal(
            ["BOOLEAN", "INTEGER", "DOUBLE", "VARCHAR", "TIMESTAMP"],
            DuckDbRows.Of($"describe select * from '{file}'").Select(r => ((string)r[1]!).Split(' ')[0]));
    }

    [Fact]
    public void Parquet_NoRows_IsAnEmptyTable()
    {
        string file = _folder.File("t.parquet");
        File.WriteAllBytes(file, ParquetTable.Of([new("whole", ParquetKind.Int32, [])], "test"));

        Assert.Equal(0L, DuckDbRows.Of($"select count(*) from '{file}'")[0][0]);
    }

    [Fact]
    public void Frames_OfADay_ReadBackAsTheyAre()
    {
        DayDebrief day = SampleDay.Of(500);
        string file = _folder.File("frames.parquet");
        File.WriteAllBytes(file, DebriefWriter.Files(day).Single(f => f.Name == "frames.parquet").Bytes.ToArray());

        List<object?[]> rows = DuckDbRows.Of($"select file, iso, exposeToClipEv, brightTextureChannel, previewHidClipped, clippedPercentG1, clippedPercentY from '{file}'");

        Assert.Equal(
            day.Frames.Select(f => new object?[] { f.File, f.Iso, f.ExposeToClipEv, f.BrightTextureChannel, f.PreviewHidClipped, f.ClippedPercent["G1"], null }),
            rows);
    }

    private static string LibraryPath()
    {
        string package = typeof(ParquetTests).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "DuckDbPackage").Value!;
        (string system, string name) = OperatingSystem.IsWindows() ? ("win-x64", "duckdb.dll")
            : OperatingSystem.IsMacOS() ? ("osx", "libduckdb.dylib")
            : (RuntimeInformation.OSArchitecture == Architecture.Arm64 ? "linux-arm64" : "linux-x64", "libduckdb.so");
        return Path.Combine(package, "runtimes", system, "native", name);
    }
}
