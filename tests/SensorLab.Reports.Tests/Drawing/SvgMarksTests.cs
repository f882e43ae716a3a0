using System.Xml.Linq;
using SensorLab.Reports.Drawing;

namespace SensorLab.Reports.Tests.Drawing;

public sealed class SvgMarksTests
{
    private const string Namespace = "http://www.w3.org/2000/svg";

    [Fact]
    public void Join_MarksAndBarsOfOneColour_BecomeTwoPaths()
    {
        XElement group = Group(
            """<path fill="none" stroke="red" d="M1 1L1 9"/><rect fill="red" x="0" y="4" width="2" height="2"/>"""
            + """<path fill="none" stroke="red" d="M5 1L5 9"/><rect fill="red" x="4" y="4" width="2" height="2"/>""");

        SvgMarks.Join(group);

        Assert.Equal(["M1 1L1 9M5 1L5 9", "M0 4h2v2h-2zM4 4h2v2h-2z"], Outlines(group));
    }

    [Fact]
    public void Join_Ellipses_RunFromTheirLeftEndRound()
    {
        XElement group = Group("""<ellipse fill="red" cx="5" cy="3" rx="2" ry="1"/><ellipse fill="red" cx="9" cy="3" rx="2" ry="1"/>""");

        SvgMarks.Join(group);

        Assert.Equal(["M3 3a2 1 0 0 1 4 0a2 1 0 0 1 -4 0zM7 3a2 1 0 0 1 4 0a2 1 0 0 1 -4 0z"], Outlines(group));
    }

    [Theory]
    [InlineData("""<path fill="none" stroke="red" d="M1 1L1 9"/><rect fill="blue" width="2" height="2"/><path fill="none" stroke="red" d="M5 1L5 9"/>""")]
    [InlineData("""<path fill="none" stroke="red" stroke-opacity="0.5" d="M1 1L1 9"/><path fill="none" stroke="red" stroke-opacity="0.5" d="M5 1L5 9"/>""")]
    [InlineData("""<rect fill="red" rx="1" width="2" height="2"/><rect fill="red" rx="1" x="4" width="2" height="2"/>""")]
    [InlineData("""<rect fill="red" stroke="blue" width="2" height="2"/><rect fill="red" stroke="blue" x="1" width="2" height="2"/>""")]
    public void Join_WhereTheOrderShows_LeavesAllAsItIs(string marks)
    {
        XElement group = Group(marks);
        string before = group.ToString();

        SvgMarks.Join(group);

        Assert.Equal(before, group.ToString());
    }

    private static XElement Group(string marks) => XElement.Parse($"""<g xmlns="{Namespace}">{marks}</g>""");

    private static IEnumerable<string> Outlines(XElement group) => group.Elements().Select(e => e.Attribute("d")!.Value);
}
