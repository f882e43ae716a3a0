using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class PublishCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public PublishCommandTests()
    {
        SensorProfile sample = SampleProfiles.Monochrome();
        SensorProfileWriter.WriteFile(sample, _folder.File("doubtful.json"));
        SensorProfileWriter.WriteFile(sample with { Findings = [] }, _folder.File("clean.json"));
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Publish_SignedAndVerified_TellsWhole()
    {
        CommandRun keys = await RunAsync("key", "--out", _folder.File("k.pem"));
        CommandRun publish = await RunAsync("publish", _folder.File("clean.json"), "--out", _folder.File("b.zip"), "--key", _folder.File("k.pem"));
        CommandRun verify = await RunAsync("verify", _folder.File("b.zip"), "--trust", _folder.File("k.pub.pem"));
        CommandRun json = await RunAsync("verify", _folder.File("b.zip"), "--json");

        Assert.Equal((0, 0, 0, 0), (keys.Status, publish.Status, verify.Status, json.Status));
        string thumbprint = keys.Output.Split("Thumbprint: ")[1].Trim();
        Assert.Contains($"Signed: by the key {thumbprint}", publish.Output, StringComparison.Ordinal);
        Assert.Empty(publish.Error);
        Assert.Contains($"Signed by the trusted key, {thumbprint}", verify.Output, StringComparison.Ordinal);
        Assert.Contains("whole, ", verify.Output, StringComparison.Ordinal);
        using var document = JsonDocument.Parse(json.Output);
        Assert.True(document.RootElement.GetProperty("valid").GetBoolean());
        Assert.Equal(thumbprint, document.RootElement.GetProperty("signature").GetProperty("thumbprint").GetString());
        Assert.Equal(JsonValueKind.Null, document.RootElement.GetProperty("signature").GetProperty("trusted").ValueKind);
    }

    [Fact]
    public async Task Publish_FindingsNotAccepted_EndsInThreeAndWritesNothing()
    {
        CommandRun run = await RunAsync("publish", _folder.File("doubtful.json"), "--out", _folder.File("b.zip"));

        Assert.Equal(3, run.Status);
        Assert.Empty(run.Output);
        Assert.Contains("--accept-findings", run.Error, StringComparison.Ordinal);
        Assert.Contains("warning: light-drift", run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(_folder.File("b.zip")));
    }

    [Fact]
    public async Task Publish_AnonymousWithFindingsAccepted_SaysWhatItLeftOut()
    {
        CommandRun run = await RunAsync("publish", _folder.File("doubtful.json"), "--out", _folder.File("b.zip"), "--anonymous", "--accept-findings");

        Assert.Equal(0, run.Status);
        Assert.Contains("- the body's serial number\n", run.Output, StringComparison.Ordinal);
        Assert.Contains("Published with findings: light-drift, metered-missing\n", run.Output, StringComparison.Ordinal);
        Assert.Contains("warning: light-drift", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("P0012", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Publish_WrongKindOfKey_EndsInFourWithTheRemedy()
    {
        await RunAsync("key", "--out", _folder.File("k.pem"));

        CommandRun run = await RunAsync("publish", _folder.File("clean.json"), "--out", _folder.File("b.zip"), "--key", _folder.File("k.pub.pem"));

        Assert.Equal(4, run.Status);
        Assert.Contains("is a public key", run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(_folder.File("b.zip")));
    }

    [Fact]
    public async Task Publish_KeyOpenToOthers_Warns()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("Rights are the folder's there.");
            return;
        }

        await RunAsync("key", "--out", _folder.File("k.pem"));
        File.SetUnixFileMode(_folder.File("k.pem"), UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.OtherRead);

        CommandRun run = await RunAsync("publish", _folder.File("clean.json"), "--out", _folder.File("b.zip"), "--key", _folder.File("k.pem"));

        Assert.Equal(0, run.Status);
        Assert.Contains("chmod 600", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("clean.json")]
    [InlineData("k.pem")]
    public async Task Publish_OntoWhatItReads_EndsInTwo(string target)
    {
        await RunAsync("key", "--out", _folder.File("k.pem"));
        byte[] before = await File.ReadAllBytesAsync(_folder.File(target), TestContext.Current.CancellationToken);

        CommandRun run = await RunAsync("publish", _folder.File("clean.json"), "--out", _folder.File(target), "--key", _folder.File("k.pem"));

        Assert.Equal(2, run.Status);
        Assert.Equal(before, await File.ReadAllBytesAsync(_folder.File(target), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Verify_ChangedBundle_EndsInSevenAndNamesTheFile()
    {
        await RunAsync("publish", _folder.File("clean.json"), "--out", _folder.File("b.zip"));
        byte[] bundle = await File.ReadAllBytesAsync(_folder.File("b.zip"), TestContext.Current.CancellationToken);
        bundle[40] ^= 1;
        await File.WriteAllBytesAsync(_folder.File("b.zip"), bundle, TestContext.Current.CancellationToken);

        CommandRun text = await RunAsync("verify", _folder.File("b.zip"));
        CommandRun json = await RunAsync("verify", _folder.File("b.zip"), "--json");

        Assert.Equal((7, 7), (text.Status, json.Status));
        Assert.Contains("NOT VALID", text.Output, StringComparison.Ordinal);
        Assert.Contains("README.txt", text.Output, StringComparison.Ordinal);
        using var document = JsonDocument.Parse(json.Output);
        Assert.Equal("file-changed", document.RootElement.GetProperty("faults")[0].GetProperty("code").GetString());
    }

    [Fact]
    public async Task Verify_NoZipAtAll_EndsInSeven()
    {
        CommandRun run = await RunAsync("verify", _folder.File("clean.json"));

        Assert.Equal(7, run.Status);
        Assert.Contains("zip-none", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("none.zip")]
    [InlineData(".")]
    public async Task Verify_WhatCannotBeRead_EndsInFour(string name) =>
        Assert.Equal(4, (await RunAsync("verify", _folder.File(name))).Status);

    [Fact]
    public async Task Verify_TrustInSomethingElse_EndsInFour()
    {
        await RunAsync("publish", _folder.File("clean.json"), "--out", _folder.File("b.zip"));

        Assert.Equal(4, (await RunAsync("verify", _folder.File("b.zip"), "--trust", _folder.File("clean.json"))).Status);
    }

    [Fact]
    public async Task Key_Twice_EndsInFourAndKeepsTheFirst()
    {
        await RunAsync("key", "--out", _folder.File("k.pem"));
        string first = await File.ReadAllTextAsync(_folder.File("k.pem"), TestContext.Current.CancellationToken);

        CommandRun run = await RunAsync("key", "--out", _folder.File("k.pem"));

        Assert.Equal(4, run.Status);
        Assert.Equal(first, await File.ReadAllTextAsync(_folder.File("k.pem"), TestContext.Current.CancellationToken));
    }

    private static Task<CommandRun> RunAsync(params string[] args) => CommandRun.OfAsync(new Workbench(), args);
}
