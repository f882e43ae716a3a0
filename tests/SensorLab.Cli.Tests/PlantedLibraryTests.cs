using System.Buffers.Binary;
using System.Diagnostics;
using System.Runtime.InteropServices;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>A library that somebody left where the program works, under the name of one that it looks for, is not loaded.</summary>
public sealed class PlantedLibraryTests(RehearsedSet set) : IClassFixture<RehearsedSet>
{
    private const int ProgramHeadersAt = 32;
    private const int ProgramHeaderBytes = 56;
    private const int ProgramHeaderCount = 56;
    private const uint Loaded = 1;
    private const uint Executable = 1;

    // An instruction that ends the process.
    private const byte Trap = 0xCC;

    [Fact]
    public async Task Intake_MakersFileBesideAPlantedLibRaw_LoadsTheSystemsOwnOrNone()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && RuntimeInformation.ProcessArchitecture == Architecture.X64, "The trap is an instruction of one processor.");
        using var folder = new TemporaryFolder();
        byte[] deadly = Deadly(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "libSystem.Native.so"));
        foreach (string name in Enumerable.Range(20, 21).Select(n => FormattableString.Invariant($"libraw_r.so.{n}")).Append("libraw_r.so"))
        {
            await File.WriteAllBytesAsync(folder.File(name), deadly, TestContext.Current.CancellationToken);
        }

        Directory.CreateDirectory(folder.File("set/dark"));
        await File.WriteAllBytesAsync(folder.File("set/dark/P0001.nef"), MakersFile(Directory.GetFiles(Path.Combine(set.Frames, "dark"))[0]), TestContext.Current.CancellationToken);

        // What is planted does end whoever loads it.
        Assert.NotEqual(0, (await RunAsync(folder, ["LD_PRELOAD=./libraw_r.so.40", "true"])).Status);
        (int status, string output) = await RunAsync(folder, ["LD_LIBRARY_PATH=.", "dotnet", Path.Combine(AppContext.BaseDirectory, "SensorLab.Cli.dll"), "intake", "set"]);

        Assert.Equal(ExitStatus.Refused, status);
        Assert.Contains("dark", output, StringComparison.Ordinal);
    }

    private static async Task<(int Status, string Output)> RunAsync(TemporaryFolder folder, string[] words)
    {
        var start = new ProcessStartInfo("env", words) { WorkingDirectory = folder.Path, RedirectStandardOutput = true, RedirectStandardError = true };
        using Process program = Process.Start(start)!;
        Task<string> output = program.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        _ = await program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (program.ExitCode, await output);
    }

    // A library all of whose code is traps: its first function runs when it is loaded.
    private static byte[] Deadly(string library)
    {
        byte[] elf = File.ReadAllBytes(library);
        long headers = BinaryPrimitives.ReadInt64LittleEndian(elf.AsSpan(ProgramHeadersAt));
        int count = BinaryPrimitives.ReadUInt16LittleEndian(elf.AsSpan(ProgramHeaderCount));
        for (int i = 0; i < count; i++)
        {
            Span<byte> header = elf.AsSpan((int)headers + (i * ProgramHeaderBytes), ProgramHeaderBytes);
            if (BinaryPrimitives.ReadUInt32LittleEndian(header) == Loaded && (BinaryPrimitives.ReadUInt32LittleEndian(header[4..]) & Executable) != 0)
            {
                elf.AsSpan((int)BinaryPrimitives.ReadInt64LittleEndian(header[8..]), (int)BinaryPrimitives.ReadInt64LittleEndian(header[32..])).Fill(Trap);
            }
        }

        return elf;
    }

    // DNGVersion under a number that nobody knows: the file then counts as a maker's own.
    private static byte[] MakersFile(string dng)
    {
        byte[] file = File.ReadAllBytes(dng);
        int at = file.AsSpan().LastIndexOf((ReadOnlySpan<byte>)[0x12, 0xC6, 1, 0]);
        file[at] = 0xE9;
        file[at + 1] = 0xFD;
        return file;
    }
}
