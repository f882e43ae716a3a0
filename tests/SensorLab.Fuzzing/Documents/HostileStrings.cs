namespace SensorLab.Fuzzing.Documents;

/// <summary>Fifty strings that nobody means well with: what steers a terminal, a page, a sheet, a path, a line or a parser.</summary>
internal static class HostileStrings
{
    /// <summary>The longest that a profile's texts may be.</summary>
    private const int LongestText = 2000;

    /// <summary>The strings, none longer than a document's texts may be.</summary>
    public static IReadOnlyList<string> Short => [.. All.Select(text => text.Length > LongestText ? text[..LongestText] : text)];

    /// <summary>The strings.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "\u001b[2J\u001b[31mred", "\u001b]0;title\u0007", "\u009b31m", "\u001b[6n", "\u001bP$q\u001b\\", "\u0007\u0008\u007f", "a\rb", "a\nsensorlab: done", "a\r\nb,c", "a\tb",
        "\u202egnp.exe", "\u2066\u2067\u2069", "\u200f\u200e", "\u2028\u2029", "\ufeff", "\u0000", "\u00ad\u200b\u200d", "\U000e0041\U000e0042", "\ud83d\ude00", "e\u0301\u0301\u0301\u0301\u0301\u0301",
        "=cmd|' /C calc'!A0", "+1+1", "-1+1", "@SUM(A1)", "\t=1+1", "\uff1d1+1", "=HYPERLINK(\"http://x\",\"y\")", "\"quoted\"", "a,b;c", "'",
        "<script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "</title></style></svg>", "<!--", "]]>", "&lt;&amp;&#0;", "javascript:alert(1)", "{{7*7}}${7*7}", "</script><script>", "\\u003cscript\\u003e",
        "../../../etc/passwd", "/dev/null", "C:\\CON", "..", ".", "name with  two  spaces", "%s%n%x", "$(reboot)`id`", "--out", new string('W', 60_000),
    ];
}
