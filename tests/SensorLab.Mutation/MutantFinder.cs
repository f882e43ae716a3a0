using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace SensorLab.Mutation;

/// <summary>Finds every place of a file that can be changed, and how.</summary>
/// <param name="model">The file's meaning.</param>
internal sealed class MutantFinder(SemanticModel model) : CSharpSyntaxWalker
{
    private static readonly Dictionary<SyntaxKind, SyntaxKind> Comparisons = new()
    {
        [SyntaxKind.LessThanExpression] = SyntaxKind.GreaterThanExpression,
        [SyntaxKind.GreaterThanExpression] = SyntaxKind.LessThanExpression,
        [SyntaxKind.LessThanOrEqualExpression] = SyntaxKind.GreaterThanOrEqualExpression,
        [SyntaxKind.GreaterThanOrEqualExpression] = SyntaxKind.LessThanOrEqualExpression,
        [SyntaxKind.EqualsExpression] = SyntaxKind.NotEqualsExpression,
        [SyntaxKind.NotEqualsExpression] = SyntaxKind.EqualsExpression,
    };

    private static readonly Dictionary<SyntaxKind, SyntaxKind> Signs = new()
    {
        [SyntaxKind.AddExpression] = SyntaxKind.SubtractExpression,
        [SyntaxKind.SubtractExpression] = SyntaxKind.AddExpression,
    };

    private static readonly Dictionary<string, string> Extremes = new() { ["Min"] = "Max", ["Max"] = "Min" };

    private readonly List<Mutant> _found = [];

    public static IReadOnlyList<Mutant> Find(SemanticModel model)
    {
        var finder = new MutantFinder(model);
        finder.Visit(model.SyntaxTree.GetRoot());
        return finder._found;
    }

    // What must be constant cannot hold a switch.
    public override void VisitAttributeList(AttributeListSyntax node)
    {
    }

    public override void VisitParameter(ParameterSyntax node)
    {
    }

    public override void VisitConstantPattern(ConstantPatternSyntax node)
    {
    }

    public override void VisitRelationalPattern(RelationalPatternSyntax node)
    {
    }

    public override void VisitCaseSwitchLabel(CaseSwitchLabelSyntax node)
    {
    }

    public override void VisitEnumDeclaration(EnumDeclarationSyntax node)
    {
    }

    public override void VisitFieldDeclaration(FieldDeclarationSyntax node) =>
        VisitDeclaration(node.Modifiers, node.Declaration, () => base.VisitFieldDeclaration(node));

    public override void VisitLocalDeclarationStatement(LocalDeclarationStatementSyntax node) =>
        VisitDeclaration(node.Modifiers, node.Declaration, () => base.VisitLocalDeclarationStatement(node));

    public override void VisitLiteralExpression(LiteralExpressionSyntax node)
    {
        if (node.IsKind(SyntaxKind.NumericLiteralExpression) && model.GetTypeInfo(node) is { ConvertedType.SpecialType: SpecialType.System_Double } type)
        {
            Scale(node, type.ConvertedType!, MutantKind.Factor);
        }
    }

    public override void VisitBinaryExpression(BinaryExpressionSyntax node)
    {
        if (Comparisons.TryGetValue(node.Kind(), out SyntaxKind comparison) && IsNumber(node.Left))
        {
            Add(node, MutantKind.Comparison, Binary(comparison, node));
        }
        else if (Signs.TryGetValue(node.Kind(), out SyntaxKind sign) && IsNumber(node))
        {
            Add(node, MutantKind.Sign, Binary(sign, node));
        }

        base.VisitBinaryExpression(node);
    }

    public override void VisitAssignmentExpression(AssignmentExpressionSyntax node)
    {
        if (node.Kind() is SyntaxKind.AddAssignmentExpression or SyntaxKind.SubtractAssignmentExpression && IsNumber(node.Right))
        {
            Add(node.Right, MutantKind.Sign, SyntaxFactory.PrefixUnaryExpression(SyntaxKind.UnaryMinusExpression, Bracketed(node.Right)));
        }

        base.VisitAssignmentExpression(node);
    }

    public override void VisitPrefixUnaryExpression(PrefixUnaryExpressionSyntax node)
    {
        if (node.IsKind(SyntaxKind.UnaryMinusExpression) && IsNumber(node))
        {
            Add(node, MutantKind.Sign, node.Operand);
        }

        base.VisitPrefixUnaryExpression(node);
    }

    public override void VisitInvocationExpression(InvocationExpressionSyntax node)
    {
        if (node.Expression is MemberAccessExpressionSyntax { Expression: IdentifierNameSyntax or PredefinedTypeSyntax } member
            && Extremes.TryGetValue(member.Name.Identifier.Text, out string? other)
            && model.GetSymbolInfo(node).Symbol is IMethodSymbol { IsStatic: true, Parameters.Length: 2 })
        {
            Add(node, MutantKind.Sign, node.WithExpression(member.WithName(SyntaxFactory.IdentifierName(other))));
        }

        base.VisitInvocationExpression(node);
    }

    public override void VisitIfStatement(IfStatementSyntax node)
    {
        Negate(node.Condition);
        base.VisitIfStatement(node);
    }

    public override void VisitConditionalExpression(ConditionalExpressionSyntax node)
    {
        Negate(node.Condition);
        base.VisitConditionalExpression(node);
    }

    private void VisitDeclaration(SyntaxTokenList modifiers, VariableDeclarationSyntax declaration, Action deeper)
    {
        if (!modifiers.Any(SyntaxKind.ConstKeyword))
        {
            deeper();
        }
        else if (declaration.Variables is [{ Initializer.Value: { } value }] && IsNumber(value))
        {
            Scale(value, model.GetTypeInfo(declaration.Type).Type!, MutantKind.Threshold);
        }
    }

    private void Scale(ExpressionSyntax value, ITypeSymbol type, MutantKind kind)
    {
        if (model.GetConstantValue(value) is { HasValue: true, Value: { } number } && Convert.ToDouble(number, CultureInfo.InvariantCulture) != 0)
        {
            string name = type.ToDisplayString(SymbolDisplayFormat.MinimallyQualifiedFormat);
            Add(value, kind, SyntaxFactory.ParseExpression($"({name})(({value}) * 1000)"));
            Add(value, kind, SyntaxFactory.ParseExpression($"({name})(({value}) / 1000)"));
        }
    }

    /// <summary>A condition that is no comparison; one that declares a variable cannot be had both ways.</summary>
    private void Negate(ExpressionSyntax condition)
    {
        bool declares = condition.DescendantNodesAndSelf().Any(n => n is VariableDesignationSyntax);
        if (!declares && !Comparisons.ContainsKey(condition.Kind()))
        {
            Add(condition, MutantKind.Comparison, SyntaxFactory.PrefixUnaryExpression(SyntaxKind.LogicalNotExpression, Bracketed(condition)));
        }
    }

    private void Add(ExpressionSyntax node, MutantKind kind, ExpressionSyntax replacement) => _found.Add(new Mutant(node, kind, replacement));

    private static BinaryExpressionSyntax Binary(SyntaxKind kind, BinaryExpressionSyntax node)
    {
        SyntaxToken sign = SyntaxFactory.BinaryExpression(kind, node.Left, node.Right).OperatorToken;
        return SyntaxFactory.BinaryExpression(kind, node.Left, sign.WithTriviaFrom(node.OperatorToken), node.Right);
    }

    private static ParenthesizedExpressionSyntax Bracketed(ExpressionSyntax node) => SyntaxFactory.ParenthesizedExpression(node.WithoutTrivia());

    private bool IsNumber(ExpressionSyntax node) => model.GetTypeInfo(node).Type?.SpecialType is
        SpecialType.System_Double or SpecialType.System_Single or SpecialType.System_Int32 or SpecialType.System_Int64
        or SpecialType.System_UInt16 or SpecialType.System_UInt32 or SpecialType.System_UInt64 or SpecialType.System_Byte;
}
