using SensorLab.Reports.Drawing;

namespace SensorLab.Reports.Tests.Drawing;

public sealed class TextLinesTests
{
    private static readonly Func<string, float> OneALetter = text => text.Length;

    [Fact]
    public void Wrap_Words_BreakAtSpaces() =>
        Assert.Equal(["one two", "three"], TextLines.Wrap("one two three", 8, OneALetter));

    [Fact]
    public void Wrap_WordWiderThanALine_IsBrokenInsideAndKeepsEveryLetter()
    {
        IReadOnlyList<string> lines = TextLines.Wrap(new string('W', 23), 8, OneALetter);

        Assert.All(lines, line => Assert.True(line.Length <= 8));
        Assert.Equal(23, lines.Sum(line => line.Length));
    }

    [Fact]
    public void WrapWithoutOrphan_LoneWord_GetsCompany() =>
        Assert.Equal(["aaaa bbbb cccc", "dddd e"], TextLines.WrapWithoutOrphan("aaaa bbbb cccc dddd e", 20, OneALetter));

    [Fact]
    public void Clip_MoreLines_EndInAnEllipsis() =>
        Assert.Equal(["one", "tw…"], TextLines.Clip(["one", "twoo", "three"], 2));
}
