using System.Text;
using SensorLab.Frames;

namespace SensorLab.Tests;

public sealed class FrameTableTests
{
    [Theory]
    [InlineData("file,colour\na.dng,red\n", 1, "\"colour\"")]
    [InlineData("file;colour\na.dng;red\n", 1, "\"colour\"")]
    [InlineData("file|role\na.dng|dark\n", 1, "\"file|role\"")]
    [InlineData("role,iso\ndark,100\n", 1, "\"file\" is missing")]
    [InlineData("file,iso,iso\na.dng,1,2\n", 1, "twice")]
    [InlineData("", 1, "empty")]
    [InlineData("file,iso\na.dng,100\nb.dng,fast\n", 3, "\"fast\"")]
    [InlineData("file,iso\na.dng,0\n", 2, "\"0\"")]
    [InlineData("file,iso\na.dng,-100\n", 2, "\"-100\"")]
    [InlineData("file,iso\na.dng,100.5\n", 2, "\"100.5\"")]
    [InlineData("file,exposureSeconds\na.dng,0\n", 2, "exposureSeconds")]
    [InlineData("file,exposureSeconds\na.dng,1/0\n", 2, "exposureSeconds")]
    [InlineData("file,exposureSeconds\na.dng,1/2/3\n", 2, "exposureSeconds")]
    [InlineData("file,exposureSeconds\na.dng,NaN\n", 2, "exposureSeconds")]
    [InlineData("file,exposureSeconds\na.dng,0,008\n", 2, "columns")]
    [InlineData("file,exposureSeconds\n\na.dng\n", 3, "columns")]
    [InlineData("file,aperture\na.dng,f/8\n", 2, "aperture")]
    [InlineData("file,aperture\na.dng,-1\n", 2, "aperture")]
    [InlineData("file,temperatureCelsius\na.dng,warm\n", 2, "temperatureCelsius")]
    [InlineData("file,role\na.dng,flat\n", 2, "\"flat\"")]
    [InlineData("file,role\n,dark\n", 2, "names no file")]
    [InlineData("file\na.dng\n./a.dng\n", 3, "line 2 already")]
    [InlineData("file\n../a.dng\n", 2, "leads out")]
    [InlineData("file\ndark/../../a.dng\n", 2, "leads out")]
    [InlineData("file\n/etc/a.dng\n", 2, "leads out")]
    [InlineData("file\nC:\\a.dng\n", 2, "leads out")]
    [InlineData("file\n\\\\server\\a.dng\n", 2, "leads out")]
    [InlineData("file,note\na.dng,\"open\n", 2, "quotes")]
    public void Read_TableThatCannotBeFollowed_NamesLineAndReason(string text, int line, string reason)
    {
        FrameTableException e = Assert.Throws<FrameTableException>(() => Read(text));

        Assert.Equal(line, e.Line);
        Assert.Contains(reason, e.Message, StringComparison.Ordinal);
        Assert.NotEmpty(e.Remedy);
    }

    [Theory]
    [InlineData("File,ISO,ExposureSeconds,Aperture\nA.dng,100,1/60,5.6\n")]
    [InlineData("file;iso;exposureSeconds;aperture\r\nA.dng;100;0,016666666666666666;5,6\r\n")]
    [InlineData("file\tISO\texposureseconds\taperture\nA.dng\t100\t1/60 s\t5.6\n")]
    [InlineData("FILE;\"iso\";exposureSeconds;aperture;note\nA.dng;100;1/60;5,6;\"a, b\"\n")]
    [InlineData("file,iso,exposureSeconds,aperture\nA.dng,100,1/60,\"5,6\"\n")]
    public void Read_TableAsPeopleMakeIt_SaysTheSame(string text)
    {
        FrameRow row = Assert.Single(Read(text));

        Assert.Equal(("A.dng", 100, 1.0 / 60, 5.6), (row.File, row.Iso, row.ExposureSeconds, row.ApertureFNumber));
    }

    [Theory]
    [InlineData("2\"", 2)]
    [InlineData("2\"5", 2.5)]
    [InlineData("0\"3", 0.3)]
    [InlineData("2''", 2)]
    [InlineData("2 s", 2)]
    [InlineData("1/8000s", 1.0 / 8000)]
    [InlineData("0,0167", 0.0167)]
    [InlineData("30″", 30)]
    public void Read_TimeAsCamerasShowIt_IsRead(string written, double seconds)
    {
        FrameRow row = Assert.Single(Read($"file;exposureSeconds\na.dng;{written}\n"));

        Assert.Equal(seconds, row.ExposureSeconds);
    }

    [Theory]
    [InlineData("Darks", FrameRole.Dark)]
    [InlineData("METERED", FrameRole.Metered)]
    [InlineData("brackets", FrameRole.Bracket)]
    [InlineData("Lights", FrameRole.Light)]
    public void Read_RoleInAnyForm_IsRead(string written, FrameRole role) =>
        Assert.Equal(role, Assert.Single(Read($"file,role\na.dng,{written}\n")).Role);

    [Fact]
    public void Read_RoleNone_SetsAside()
    {
        FrameRow row = Assert.Single(Read("file,role\na.dng,None\n"));

        Assert.Equal((true, (FrameRole?)null), (row.IsSetAside, row.Role));
    }

    [Theory]
    [InlineData("file,exposureSecond\na.dng,1\n", "Did you mean exposureSeconds?")]
    [InlineData("file,lihgtStep\na.dng,1\n", "Did you mean lightStep?")]
    [InlineData("file,role\na.dng,brakcet\n", "Did you mean bracket?")]
    [InlineData("file,role\na.dng,dar\n", "Use dark")]
    public void Read_WordThatIsNearlyRight_IsAskedFor(string text, string question) =>
        Assert.Contains(question, Assert.Throws<FrameTableException>(() => Read(text)).Remedy, StringComparison.Ordinal);

    [Fact]
    public void Read_NotUtf8_IsSaid()
    {
        using var stream = new MemoryStream([.. "file,note\na.dng,"u8, 0xE9, (byte)'\n']);

        Assert.Contains("UTF-8", Assert.Throws<FrameTableException>(() => FrameTable.Read(stream)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Read_ByteOrderMark_MayBeThere(bool hasMark)
    {
        using var stream = new MemoryStream([.. new UTF8Encoding(hasMark).Preamble, .. "file,look\r\nå.dng,weich\r\n"u8]);

        FrameRow row = Assert.Single(FrameTable.Read(stream));

        Assert.Equal(("å.dng", "weich", 2), (row.File, row.Look, row.Line));
    }

    [Fact]
    public void Read_QuotedFields_KeepCommasQuotesAndBreaks()
    {
        IReadOnlyList<FrameRow> rows = Read("file,light\n\"a, b.dng\",\"the \"\"big\"\" lamp\"\nc.dng,\"two\nlines\"\nd.dng,plain\n");

        Assert.Equal(["a, b.dng", "c.dng", "d.dng"], rows.Select(r => r.File));
        Assert.Equal(["the \"big\" lamp", "two\nlines", "plain"], rows.Select(r => r.Light!));
        Assert.Equal([2, 3, 5], rows.Select(r => r.Line));
    }

    [Fact]
    public void Read_BlankCells_SayNothing()
    {
        FrameRow row = Assert.Single(Read("file,role,iso,exposureSeconds,aperture,look\n a.dng , ,,, ,\n"));

        Assert.Equal(new FrameRow { Line = 2, File = "a.dng" }, row);
    }

    [Fact]
    public void Read_HeaderAlone_HasNoRows() => Assert.Empty(Read("file,role\n"));

    [Theory]
    [InlineData("./dark//a.dng", "dark/a.dng")]
    [InlineData("dark\\a.dng", "dark/a.dng")]
    [InlineData("bracket/../dark/a.dng", "dark/a.dng")]
    public void Read_PathsWithDetours_AreStraightened(string written, string path) =>
        Assert.Equal(path, Assert.Single(Read($"file\n{written}\n")).File);

    private static IReadOnlyList<FrameRow> Read(string text)
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(text));
        return FrameTable.Read(stream);
    }
}
