using System.Text;
using SensorLab.Files;

namespace SensorLab.Reports.Pages;

/// <summary>Writes HTML element by element: every element is closed where it was opened, every text escaped.</summary>
internal sealed class HtmlWriter
{
    private readonly StringBuilder _html = new();
    private readonly Stack<string> _open = new();

    /// <summary>Opens an element; it ends where the returned scope is disposed of.</summary>
    /// <param name="name">The element's name, ours and never from a file.</param>
    /// <param name="attributes">Names and values; an attribute of value null is left out, of value "" stands alone.</param>
    public IDisposable In(string name, params ReadOnlySpan<(string Name, string? Value)> attributes)
    {
        Start(name, attributes);
        _open.Push(name);
        return new Scope(this, _open.Count);
    }

    /// <summary>An element that holds text alone.</summary>
    /// <param name="name">The element's name.</param>
    /// <param name="text">The text, from anywhere.</param>
    /// <param name="attributes">As for <see cref="In"/>.</param>
    public void Leaf(string name, string text, params ReadOnlySpan<(string Name, string? Value)> attributes)
    {
        Start(name, attributes);
        Text(text);
        _html.Append("</").Append(name).Append('>');
    }

    /// <summary>An element without an end, such as <c>meta</c>.</summary>
    /// <param name="name">The element's name.</param>
    /// <param name="attributes">As for <see cref="In"/>.</param>
    public void Void(string name, params ReadOnlySpan<(string Name, string? Value)> attributes) => Start(name, attributes);

    /// <summary>Text, from anywhere; control characters are left out.</summary>
    /// <param name="text">The text.</param>
    public void Text(string text) => Escape(text);

    /// <summary>Markup of our own: a chart, a style sheet, a script.</summary>
    /// <param name="markup">Markup that holds nothing unescaped from a file.</param>
    public void Markup(string markup) => _html.Append(markup);

    /// <summary>A line break of the source, so that the file can be read and compared.</summary>
    public void Break() => _html.Append('\n');

    /// <summary>The document.</summary>
    /// <exception cref="InvalidOperationException">An element is still open.</exception>
    public string Document() => _open.Count == 0
        ? _html.ToString()
        : throw new InvalidOperationException($"The element {_open.Peek()} is still open.");

    private void Start(string name, ReadOnlySpan<(string Name, string? Value)> attributes)
    {
        _html.Append('<').Append(name);
        foreach ((string attribute, string? value) in attributes)
        {
            if (value is null)
            {
                continue;
            }

            _html.Append(' ').Append(attribute);
            if (value.Length > 0)
            {
                _html.Append("=\"");
                Escape(value);
                _html.Append('"');
            }
        }

        _html.Append('>');
    }

    private void Escape(string text)
    {
        foreach (char c in text)
        {
            _ = c switch
            {
                '&' => _html.Append("&amp;"),
                '<' => _html.Append("&lt;"),
                '>' => _html.Append("&gt;"),
                '"' => _html.Append("&quot;"),
                '\'' => _html.Append("&#39;"),
                _ => _html.Append(ForeignText.IsUnsafe(c) ? ' ' : c),
            };
        }
    }

    private sealed class Scope(HtmlWriter writer, int depth) : IDisposable
    {
        public void Dispose()
        {
            if (writer._open.Count != depth)
            {
                throw new InvalidOperationException("Elements are closed in the order in which they were opened, the last one first.");
            }

            writer._html.Append("</").Append(writer._open.Pop()).Append('>');
        }
    }
}
