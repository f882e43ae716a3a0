using SensorLab.Frames;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests.Dng;

public sealed class DngRefusalTests
{
    private static readonly Dictionary<string, (bool IsUnsuitable, string Reason, Action<TestDirectory> Raw)> Refusals = new()
    {
        ["lossy"] = (true, "lossy JPEG", raw => raw.Shorts(259, 34892)),
        ["jpeg xl"] = (true, "JPEG XL", raw => raw.Shorts(259, 52546)),
        ["three samples"] = (true, "demosaiced", raw => raw.Shorts(262, 34892).Shorts(277, 3).Shorts(258, 16, 16, 16)),
        ["floating point"] = (true, "floating-point", raw => raw.Shorts(339, 3)),
        ["noise reduced"] = (true, "noise was reduced", raw => raw.Rationals(50935, (1, 2))),
        ["all red"] = (true, "no pattern of red, green and blue", raw => raw.Shorts(33421, 6, 6).Bytes(33422, new byte[36])),
        ["no rows"] = (true, "after 0 rows and 0 columns", raw => raw.Shorts(33421, 0, 0)),
        ["no columns"] = (true, "after 2 rows and 0 columns", raw => raw.Shorts(33421, 2, 0)),
        ["nine by nine"] = (true, "after 9 rows and 9 columns", raw => raw.Shorts(33421, 9, 9).Bytes(33422, [.. Enumerable.Range(0, 81).Select(i => (byte)(i % 3))])),
        ["a side alone"] = (true, "does not say after how many", raw => raw.Shorts(33421, 2)),
        ["fewer than it says"] = (true, "and 4 are named", raw => raw.Shorts(33421, 6, 6)),
        ["staggered"] = (true, "rectangular grid", raw => raw.Shorts(50711, 2)),
        ["no green"] = (true, "no pattern of red, green and blue", raw => raw.Bytes(33422, 0, 2, 2, 0)),
        ["cyan"] = (true, "no pattern of red, green and blue", raw => raw.Bytes(33422, 3, 1, 1, 2)),
        ["interleaved"] = (false, "interleaved", raw => raw.Shorts(50975, 2)),
        ["unknown compression"] = (false, "34713", raw => raw.Shorts(259, 34713)),
        ["four bits"] = (false, "8", raw => raw.Shorts(258, 4)),
        ["low bits first"] = (false, "lowest bit", raw => raw.Shorts(266, 2)),
    };

    public static TheoryData<string> RefusalNames() => [.. Refusals.Keys];

    [Theory]
    [MemberData(nameof(RefusalNames))]
    public void Open_NoSensorDataOrUndecodable_IsRefusedWithReasonAndRemedy(string name)
    {
        (bool isUnsuitable, string reason, Action<TestDirectory> raw) = Refusals[name];
        TestDng dng = TestDng.Random(16, 12, 16) with { Raw = raw };

        UnsupportedFileException refusal = Assert.Throws<UnsupportedFileException>(() => Mosaics.FrameOf(dng));

        Assert.Contains(reason, refusal.Message, StringComparison.Ordinal);
        Assert.True(refusal.Remedy.Length > 20, name);
        Assert.Equal(isUnsuitable, refusal.IsUnsuitable);
    }

    [Fact]
    public void Open_MoreFiltersOrSidesThanThereAre_IsDamage()
    {
        Assert.Throws<MalformedFileException>(() => Mosaics.FrameOf(TestDng.Random(16, 12, 16) with { Raw = raw => raw.Shorts(33421, 2, 2, 2) }));
        Assert.Throws<MalformedFileException>(() => Mosaics.FrameOf(TestDng.Random(16, 12, 16) with { Raw = raw => raw.Bytes(33422, 0, 1, 1, 2, 0, 1) }));
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(0, 0)]
    public void Open_NoiseReductionNoneOrUnknown_IsAccepted(long over, long under)
    {
        TestDng dng = TestDng.Random(16, 12, 16) with { Raw = raw => raw.Rationals(50935, (over, under)) };

        Assert.Equal(dng.Samples, Mosaics.ReadAll(dng));
    }

    [Fact]
    public void Open_OnlyDevelopedImages_IsRefused()
    {
        TestDng dng = TestDng.Random(16, 12, 16) with { Raw = raw => raw.Shorts(262, 2) };

        Assert.True(Assert.Throws<UnsupportedFileException>(() => Mosaics.FrameOf(dng)).IsUnsuitable);
    }
}
