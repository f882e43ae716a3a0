namespace SensorLab.Files.Tests;

public sealed class ForeignTextTests
{
    [Theory]
    [InlineData("ISO 100, ½ EV − grün", "ISO 100, ½ EV − grün")]
    [InlineData("\u001b[2J\u009b31m", "\\u001B[2J\\u009B31m")]
    [InlineData("a\u202Etxt.gnp", "a\\u202Etxt.gnp")]
    [InlineData("line\nline\r\t", "line\\u000Aline\\u000D\\u0009")]
    [InlineData("\U0001F600", "\U0001F600")]
    [InlineData("\U000E0041", "\\uDB40\\uDC41")]
    [InlineData("\u2028\uFEFF", "\\u2028\\uFEFF")]
    public void Visible_Text_HoldsNothingThatSteersATerminal(string text, string expected) =>
        Assert.Equal(expected, ForeignText.Visible(text, keepsLines: false));

    [Fact]
    public void Visible_HalfOfAPair_IsSpelledOut() => Assert.Equal("a\\uD800b", ForeignText.Visible("a\ud800b", keepsLines: false));

    [Fact]
    public void WriteLine_NameWithALineFeed_StaysOneLine()
    {
        using var inner = new StringWriter();
        using var writer = new VisibleTextWriter(inner);

        writer.WriteLine("a\nsensorlab: done");
        writer.Write("{\n  \"name\": \"\u202e\"\n}\n");

        Assert.Equal("a\\u000Asensorlab: done\n{\n  \"name\": \"\\u202E\"\n}\n", inner.ToString());
    }

    [Theory]
    [InlineData("=x.dng", "'=x.dng")]
    [InlineData("'=x.dng", "''=x.dng")]
    [InlineData("\uFF1Dx", "'\uFF1Dx")]
    [InlineData("-5", "'-5")]
    [InlineData("'t Hof", "'t Hof")]
    [InlineData("dark/=x.dng", "dark/=x.dng")]
    [InlineData("", "")]
    public void InCell_AnyText_BeginsNoFormulaAndComesBack(string text, string cell)
    {
        Assert.Equal(cell, ForeignText.InCell(text));
        Assert.Equal(text, ForeignText.OfCell(cell));
    }
}
