using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace SensorLab.Mutation;

/// <summary>One way to change one expression of the code.</summary>
/// <param name="Node">The expression; of a constant its value.</param>
/// <param name="Kind">What is changed.</param>
/// <param name="Replacement">The changed expression.</param>
internal sealed record Mutant(ExpressionSyntax Node, MutantKind Kind, ExpressionSyntax Replacement)
{
    private const int MostCharacters = 70;

    /// <summary>File and line from the repository's root.</summary>
    public string Place => $"{Node.SyntaxTree.FilePath}:{Node.GetLocation().GetLineSpan().StartLinePosition.Line + 1}";

    /// <summary>Before and after, on one line.</summary>
    public string Change => $"{Short(Node.ToString())} → {Short(Replacement.ToString())}";

    private static string Short(string code)
    {
        string line = string.Join(' ', code.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return line.Length <= MostCharacters ? line : line[..(MostCharacters - 1)] + "…";
    }
}
