using System.Text;

namespace SensorLab.Files;

/// <summary>A terminal's stream on which no text can steer the terminal: what would is spelled out, as \u001B.</summary>
/// <remarks>
/// A line that is written as a line holds no further one: a name with a line feed cannot pass for a line of ours. Documents,
/// written without <c>Line</c>, keep theirs; what is spelled out in a JSON document is read back as it was.
/// </remarks>
/// <param name="inner">Where the text goes.</param>
public sealed class VisibleTextWriter(TextWriter inner) : TextWriter
{
    /// <inheritdoc/>
    public override Encoding Encoding => inner.Encoding;

    /// <inheritdoc/>
    public override void Write(char value) => Write([value]);

    /// <inheritdoc/>
    public override void Write(char[] buffer, int index, int count) => Write(buffer.AsSpan(index, count));

    /// <inheritdoc/>
    public override void Write(string? value) => Write(value.AsSpan());

    /// <inheritdoc/>
    public override void Write(ReadOnlySpan<char> buffer) => inner.Write(ForeignText.Visible(buffer, keepsLines: true));

    /// <inheritdoc/>
    public override void WriteLine() => inner.Write('\n');

    /// <inheritdoc/>
    public override void WriteLine(string? value) => inner.Write(ForeignText.Visible(value, keepsLines: false) + "\n");

    /// <inheritdoc/>
    public override void Flush() => inner.Flush();
}
