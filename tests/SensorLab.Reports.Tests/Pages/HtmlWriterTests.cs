using System.Text;
using SensorLab.Reports.Pages;

namespace SensorLab.Reports.Tests.Pages;

public sealed class HtmlWriterTests
{
    [Fact]
    public void Text_Markup_IsEscaped()
    {
        var html = new HtmlWriter();
        html.Leaf("p", "<b>&\"'\u0007\u202e</b>", ("title", "\"><script>"));

        Assert.Equal("<p title=\"&quot;&gt;&lt;script&gt;\">&lt;b&gt;&amp;&quot;&#39;  &lt;/b&gt;</p>", html.Document());
    }

    [Fact]
    public void Document_OpenElement_IsAFault()
    {
        var html = new HtmlWriter();
        html.In("main");

        Assert.Throws<InvalidOperationException>(html.Document);
    }

    [Fact]
    public void In_ClosedOutOfOrder_IsAFault()
    {
        var html = new HtmlWriter();
        IDisposable outer = html.In("main");
        html.In("p");

        Assert.Throws<InvalidOperationException>(outer.Dispose);
    }

    [Fact]
    public void Attribute_NullIsLeftOut_EmptyStandsAlone()
    {
        var html = new HtmlWriter();
        html.Void("input", ("class", null), ("disabled", ""));

        Assert.Equal("<input disabled>", html.Document());
    }

    [Fact]
    public void Shell_Title_StaysText()
    {
        string page = Encoding.UTF8.GetString(PageShell.Document("</title><script>alert(1)</script>", _ => { }, []));

        Assert.Contains("<title>&lt;/title&gt;&lt;script&gt;alert(1)&lt;/script&gt;</title>", page, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", System.Net.WebUtility.HtmlDecode(page), StringComparison.Ordinal);
    }
}
