using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>The option <c>--out</c> of what is a page or a PDF: the ending says which.</summary>
internal sealed class PageOrPaper
{
    private const string PageSuffix = ".html";
    private const string PaperSuffix = ".pdf";

    /// <summary>The option, required.</summary>
    /// <param name="description">What is written.</param>
    public PageOrPaper(string description)
    {
        Option = new Option<string>("--out") { HelpName = "FILE.html|FILE.pdf", Description = description, Required = true };
        Option.Validators.Add(result =>
        {
            if (result.Tokens is [var word] && !IsPage(word.Value) && !word.Value.EndsWith(PaperSuffix, StringComparison.OrdinalIgnoreCase))
            {
                result.AddError($"--out: \"{word.Value}\" ends in neither {PageSuffix} nor {PaperSuffix}.");
            }
        });
    }

    public Option<string> Option { get; }

    /// <summary>Whether a page is asked for.</summary>
    /// <param name="file">What was given.</param>
    public static bool IsPage(string file) => file.EndsWith(PageSuffix, StringComparison.OrdinalIgnoreCase);
}
