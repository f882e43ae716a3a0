using System.Security.Cryptography;
using System.Text;
using SensorLab.Files;

namespace SensorLab.Reports.Pages;

/// <summary>What every page of ours shares: one file that asks the network for nothing, in light, dark and print.</summary>
/// <remarks>
/// The page's own policy allows the style and the script that are in it, by their hashes, and nothing else: text from a file that
/// got through as markup could still neither run nor load anything.
/// </remarks>
internal static class PageShell
{
    /// <summary>Makes a document.</summary>
    /// <param name="title">The page's title, from anywhere.</param>
    /// <param name="body">Writes what stands between the body's tags.</param>
    /// <param name="styles">Names of style sheets in <c>Pages</c> that follow the common one, for example "report.css".</param>
    /// <param name="scripts">Names of scripts in <c>Pages</c> that run as one, in this order, once the page is there; none by default.</param>
    /// <returns>UTF-8 without a byte order mark.</returns>
    public static byte[] Document(string title, Action<HtmlWriter> body, IReadOnlyList<string> styles, params IReadOnlyList<string> scripts)
    {
        string style = string.Concat(new[] { "page.css" }.Concat(styles).Select(Resource));
        string? code = scripts.Count == 0 ? null : string.Concat(scripts.Select(Resource));
        var html = new HtmlWriter();
        html.Markup("<!doctype html>\n");
        using (html.In("html", ("lang", "en")))
        {
            html.Break();
            using (html.In("head"))
            {
                Head(html, title, style, code);
            }

            html.Break();
            using (html.In("body"))
            {
                html.Break();
                body(html);
                if (code is not null)
                {
                    using IDisposable element = html.In("script");
                    html.Markup(code);
                }
            }
        }

        html.Break();
        return new UTF8Encoding(false).GetBytes(html.Document());
    }

    private static void Head(HtmlWriter html, string title, string style, string? code)
    {
        html.Void("meta", ("charset", "utf-8"));
        html.Break();
        string policy = $"default-src 'none'; style-src {HashOf(style)}; script-src {(code is null ? "'none'" : HashOf(code))}; img-src data:; base-uri 'none'; form-action 'none'";
        html.Void("meta", ("http-equiv", "Content-Security-Policy"), ("content", policy));
        html.Break();
        html.Void("meta", ("name", "viewport"), ("content", "width=device-width, initial-scale=1"));
        html.Break();
        html.Void("meta", ("name", "color-scheme"), ("content", "light dark"));
        html.Break();

        // An empty icon: a browser would ask the folder for one.
        html.Void("link", ("rel", "icon"), ("href", "data:,"));
        html.Break();
        html.Leaf("title", ForeignText.OneLine(title));
        html.Break();
        using (html.In("style"))
        {
            html.Markup(style);
        }
    }

    private static string HashOf(string text) => $"'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(text)))}'";

    /// <summary>A style sheet or script of the pages.</summary>
    /// <param name="name">Its name, for example "page.css".</param>
    internal static string Resource(string name)
    {
        using Stream stream = typeof(PageShell).Assembly.GetManifestResourceStream($"SensorLab.Reports.Pages.{name}")
            ?? throw new ArgumentException($"There is no {name} among the pages' resources.", nameof(name));
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd().ReplaceLineEndings("\n");
    }
}
