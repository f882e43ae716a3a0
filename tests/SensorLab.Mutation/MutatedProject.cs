using System.Globalization;
using System.Text;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using SensorLab.TestData;

namespace SensorLab.Mutation;

/// <summary>
/// A project compiled with all chosen mutants in it, each behind its number, so that one assembly serves every mutant.
/// </summary>
internal sealed class MutatedProject
{
    private const string MutantAnnotation = "mutant";

    /// <summary>How far around an error a constant is looked for that caused it.</summary>
    private const int NodesAroundError = 3;

    private readonly CSharpCompilation _compilation;

    /// <summary>Opens a project.</summary>
    /// <param name="name">The project's name, a folder of <c>src</c>; it has been built in Release.</param>
    /// <param name="references">Every assembly that it may refer to.</param>
    public MutatedProject(string name, IEnumerable<string> references)
    {
        Name = name;
        string folder = Path.Combine(Repository.Root, "src", name);
        // Of what the build makes only the global usings and the assembly's attributes matter.
        IEnumerable<string> files = Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories)
            .Where(f => Path.GetRelativePath(folder, f).Split(Path.DirectorySeparatorChar)[0] is not ("obj" or "bin"))
            .Concat(Directory.EnumerateFiles(Path.Combine(folder, "obj", "Release", "net10.0"), "*.cs"))
            .Order(StringComparer.Ordinal);
        _compilation = CSharpCompilation.Create(
            name,
            files.Select(f => Parse(File.ReadAllText(f), Path.GetRelativePath(Repository.Root, f).Replace('\\', '/'))),
            references.Where(r => Path.GetFileNameWithoutExtension(r) != name).Select(r => MetadataReference.CreateFromFile(r)),
            new CSharpCompilationOptions(
                OutputKind.DynamicallyLinkedLibrary,
                optimizationLevel: OptimizationLevel.Release,
                allowUnsafe: true,
                nullableContextOptions: NullableContextOptions.Enable,
                generalDiagnosticOption: ReportDiagnostic.Suppress));
    }

    public string Name { get; }

    /// <summary>All mutants of the project, in the order of its files.</summary>
    public IReadOnlyList<Mutant> Find() =>
        [.. _compilation.SyntaxTrees.Where(t => !t.FilePath.Contains("/obj/", StringComparison.Ordinal)).SelectMany(t => MutantFinder.Find(_compilation.GetSemanticModel(t)))];

    /// <summary>The project with mutants woven in.</summary>
    /// <param name="mutants">The mutants of this project by their numbers.</param>
    /// <param name="others">Woven projects that it may rest on: a constant of theirs is no part of this one's code any more.</param>
    public CSharpCompilation With(IReadOnlyDictionary<int, Mutant> mutants, IEnumerable<CSharpCompilation> others)
    {
        CSharpCompilation woven = _compilation.AddSyntaxTrees(Parse(WovenSwitch(), "MutantSwitch.cs"));
        foreach (CSharpCompilation other in others)
        {
            woven = woven.ReplaceReference(woven.References.Single(r => Path.GetFileNameWithoutExtension(r.Display) == other.AssemblyName), other.ToMetadataReference());
        }

        foreach (IGrouping<SyntaxTree, KeyValuePair<int, Mutant>> file in mutants.GroupBy(m => m.Value.Node.SyntaxTree))
        {
            woven = woven.ReplaceSyntaxTree(file.Key, Woven(file.Key, file));
        }

        return woven;
    }

    /// <summary>Compiles a project with mutants woven in.</summary>
    /// <param name="woven">The project.</param>
    /// <param name="path">Where the assembly goes.</param>
    /// <returns>The numbers that do not compile; empty where the assembly was written.</returns>
    public static IReadOnlySet<int> Compile(CSharpCompilation woven, string path)
    {
        using var assembly = new MemoryStream();
        Diagnostic[] errors = [.. woven.Emit(assembly).Diagnostics.Where(d => d.Severity == DiagnosticSeverity.Error)];
        if (errors.Length == 0)
        {
            File.WriteAllBytes(path, assembly.ToArray());
        }

        return errors.SelectMany(e => Culprits(e, woven)).ToHashSet();
    }

    private static SyntaxTree Parse(string text, string path) =>
        CSharpSyntaxTree.ParseText(text, new CSharpParseOptions(LanguageVersion.Preview), path, Encoding.UTF8);

    private static string WovenSwitch()
    {
        using var reader = new StreamReader(typeof(MutatedProject).Assembly.GetManifestResourceStream("MutantSwitch.cs")!);
        return reader.ReadToEnd();
    }

    private static SyntaxTree Woven(SyntaxTree tree, IEnumerable<KeyValuePair<int, Mutant>> mutants)
    {
        ILookup<SyntaxNode, KeyValuePair<int, Mutant>> byNode = mutants.ToLookup(m => (SyntaxNode)m.Value.Node);
        SyntaxNode root = tree.GetRoot().ReplaceNodes(byNode.Select(g => g.Key), (original, rewritten) => byNode[original].Aggregate((ExpressionSyntax)rewritten, Switched));
        // What is reckoned once and holds a switch is reckoned each time from now on: a worker lives longer than a mutant.
        while (root.DescendantNodes().FirstOrDefault(n => IsReckonedOnce(n) && n.GetAnnotatedNodes(MutantAnnotation).Any()) is { } declaration)
        {
            root = root.ReplaceNode(declaration, ReckonedEachTime(declaration));
        }

        return tree.WithRootAndOptions(root, tree.Options);
    }

    private static ExpressionSyntax Switched(ExpressionSyntax expression, KeyValuePair<int, Mutant> mutant)
    {
        string number = mutant.Key.ToString(CultureInfo.InvariantCulture);
        ConditionalExpressionSyntax choice = SyntaxFactory.ConditionalExpression(
            SyntaxFactory.ParseExpression($"SensorLab.Mutation.MutantSwitch.Is({number})"),
            SyntaxFactory.ParenthesizedExpression(mutant.Value.Replacement.WithoutTrivia()),
            SyntaxFactory.ParenthesizedExpression(expression.WithoutTrivia()));
        return SyntaxFactory.ParenthesizedExpression(choice).WithTriviaFrom(expression).WithAdditionalAnnotations(new SyntaxAnnotation(MutantAnnotation, number));
    }

    private static bool IsReckonedOnce(SyntaxNode node) => node switch
    {
        LocalDeclarationStatementSyntax local => local.Modifiers.Any(SyntaxKind.ConstKeyword),
        FieldDeclarationSyntax { Declaration.Variables: [{ Initializer: not null }] } field => field.Modifiers.Any(SyntaxKind.ConstKeyword) || IsStaticReadOnly(field),
        PropertyDeclarationSyntax { Initializer: not null } property => property.Modifiers.Any(SyntaxKind.StaticKeyword),
        _ => false,
    };

    private static bool IsStaticReadOnly(FieldDeclarationSyntax field) => field.Modifiers.Any(SyntaxKind.StaticKeyword) && field.Modifiers.Any(SyntaxKind.ReadOnlyKeyword);

    private static SyntaxNode ReckonedEachTime(SyntaxNode declaration) => declaration switch
    {
        LocalDeclarationStatementSyntax local => local.WithModifiers([.. local.Modifiers.Where(m => !m.IsKind(SyntaxKind.ConstKeyword))]).WithLeadingTrivia(local.GetLeadingTrivia()),
        FieldDeclarationSyntax field => SyntaxFactory.PropertyDeclaration(field.Declaration.Type, field.Declaration.Variables[0].Identifier.WithTrailingTrivia(SyntaxFactory.Space))
            .WithModifiers([.. field.Modifiers
                .Where(m => !m.IsKind(SyntaxKind.ReadOnlyKeyword))
                .Select(m => m.IsKind(SyntaxKind.ConstKeyword) ? SyntaxFactory.Token(SyntaxKind.StaticKeyword).WithTriviaFrom(m) : m)])
            .WithExpressionBody(SyntaxFactory.ArrowExpressionClause(field.Declaration.Variables[0].Initializer!.Value))
            .WithSemicolonToken(field.SemicolonToken),
        PropertyDeclarationSyntax property => property
            .WithAccessorList(null)
            .WithInitializer(null)
            .WithExpressionBody(SyntaxFactory.ArrowExpressionClause(property.Initializer!.Value)),
        _ => throw new ArgumentException("Nothing else is reckoned once.", nameof(declaration)),
    };

    /// <summary>The mutants that an error comes from: those it lies in, or those of the constants it speaks of.</summary>
    private static int[] Culprits(Diagnostic error, CSharpCompilation woven)
    {
        SyntaxTree tree = error.Location.SourceTree!;
        SyntaxNode node = tree.GetRoot().FindNode(error.Location.SourceSpan, getInnermostNodeForTie: true);
        SemanticModel model = woven.GetSemanticModel(tree);
        IEnumerable<SyntaxNode> constants = node.AncestorsAndSelf()
            .Take(NodesAroundError)
            .SelectMany(n => n.DescendantNodesAndSelf().OfType<SimpleNameSyntax>())
            .SelectMany(name => model.GetSymbolInfo(name) is { } info ? info.CandidateSymbols.Add(info.Symbol!) : [])
            .Where(symbol => symbol is IPropertySymbol or ILocalSymbol)
            .SelectMany(symbol => symbol.DeclaringSyntaxReferences.Select(r => r.GetSyntax()));
        IEnumerable<SyntaxNode>[] suspects = [node.AncestorsAndSelf(), node.DescendantNodes(), constants.SelectMany(c => c.DescendantNodesAndSelf())];
        return suspects.Select(nodes => nodes.SelectMany(Numbers).ToArray()).FirstOrDefault(numbers => numbers.Length > 0)
            ?? throw new InvalidOperationException($"The mutated project does not compile: {error}");
    }

    private static IEnumerable<int> Numbers(SyntaxNode node) =>
        node.GetAnnotations(MutantAnnotation).Select(a => int.Parse(a.Data!, CultureInfo.InvariantCulture));
}
