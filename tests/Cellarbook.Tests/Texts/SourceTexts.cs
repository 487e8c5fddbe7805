using System.Text;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace Cellarbook.Tests.Texts;

/// <summary>A place in the sources.</summary>
public sealed record Spot(string File, int Line)
{
    public override string ToString() => $"{File}:{Line}";
}

/// <summary>
/// Everything the program says, as the compiler understands its sources: each text that becomes a sentence, with its pattern, and each place where a text
/// would reach a reader without being one.
/// </summary>
public sealed partial class SourceTexts
{
    private readonly Dictionary<string, Spot> keys = new(StringComparer.Ordinal);
    private readonly List<string> problems = [];
    private readonly HashSet<string> literals = new(StringComparer.Ordinal);

    /// <summary>Reads the sources; once is enough for all tests.</summary>
    public static SourceTexts Read { get; } = new();

    private SourceTexts()
    {
        var root = Root();
        var trees = Files(root).Select(file => CSharpSyntaxTree.ParseText(File.ReadAllText(file), new CSharpParseOptions(LanguageVersion.Preview), file)).ToList();
        var usings = string.Concat(new[] { "System", "System.IO", "System.Linq", "System.Net.Http", "System.Threading", "System.Threading.Tasks", "System.Collections.Generic", "System.Net.Http.Json", "Microsoft.AspNetCore.Builder", "Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Http", "Microsoft.AspNetCore.Routing", "Microsoft.Extensions.Configuration", "Microsoft.Extensions.DependencyInjection", "Microsoft.Extensions.Hosting", "Microsoft.Extensions.Logging", "Cellarbook.Core" }.Select(space => $"global using {space};\n"));
        trees.Add(CSharpSyntaxTree.ParseText(usings, new CSharpParseOptions(LanguageVersion.Preview)));
        var references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator).Where(path => Path.GetFileName(path) is not ("Cellarbook.dll" or "Cellarbook.Core.dll")).Select(path => MetadataReference.CreateFromFile(path));
        var compilation = CSharpCompilation.Create("Texts", trees, references, new CSharpCompilationOptions(OutputKind.ConsoleApplication, nullableContextOptions: NullableContextOptions.Enable, allowUnsafe: true));
        Sentence = compilation.GetTypeByMetadataName("Cellarbook.Core.Sentence")!;
        foreach (var tree in trees.Where(tree => tree.FilePath.Length > 0 && !tree.FilePath.EndsWith("Sentence.cs", StringComparison.Ordinal)))
        {
            var model = compilation.GetSemanticModel(tree);
            foreach (var node in tree.GetRoot().DescendantNodes().OfType<ExpressionSyntax>()) Look(node, model, root);
            if (tree.FilePath.EndsWith("_cshtml.g.cs", StringComparison.Ordinal)) LookAtPage(tree, model, root);
        }
    }

    /// <summary>Patterns of all sentences, with a place where each is said.</summary>
    public IReadOnlyDictionary<string, Spot> Keys => keys;

    /// <summary>Every text literal.</summary>
    public IReadOnlySet<string> Literals => literals;

    /// <summary>Places where a text escapes translation.</summary>
    public IReadOnlyList<string> Problems => problems;

    private INamedTypeSymbol Sentence { get; }

    /// <summary>The project's folder, found from where the tests run.</summary>
    public static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (Directory.Exists(Path.Combine(folder.FullName, "src", "Cellarbook.Core"))) return folder.FullName;
        throw new InvalidOperationException("The tests don't run inside the project.");
    }

    private static IEnumerable<string> Files(string root)
    {
        var host = Path.Combine(root, "src", "Cellarbook");
        var written = new[] { Path.Combine(root, "src", "Cellarbook.Core"), host }.SelectMany(folder => Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories))
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal) && !file.Contains($"{Path.DirectorySeparatorChar}bin{Path.DirectorySeparatorChar}", StringComparison.Ordinal));
        // What the compiler made of the pages; what is left of one that is gone doesn't count.
        var built = new DirectoryInfo(AppContext.BaseDirectory).Parent!.Name;
        var pages = Path.Combine(host, "obj", built, "net10.0", "generated");
        var made = Directory.Exists(pages) ? Directory.EnumerateFiles(pages, "*_cshtml.g.cs", SearchOption.AllDirectories).Where(file => Directory.EnumerateFiles(Path.Combine(host, "Pages"), "*.cshtml", SearchOption.AllDirectories).Any(page => file.EndsWith(Path.GetRelativePath(host, page).Replace(".cshtml", "_cshtml.g.cs", StringComparison.Ordinal), StringComparison.Ordinal))) : [];
        return written.Concat(made);
    }

    private void Look(ExpressionSyntax node, SemanticModel model, string root)
    {
        if (node is LiteralExpressionSyntax { Token.Value: string text }) literals.Add(text);
        if (node is BinaryExpressionSyntax { RawKind: (int)SyntaxKind.AddExpression } sum && (IsSentence(model.GetTypeInfo(sum.Left).Type) || IsSentence(model.GetTypeInfo(sum.Right).Type))) problems.Add($"{At(node, root)}: a sentence is made part of a text: {Short(node)}");
        if (node is InterpolatedStringExpressionSyntax plain && IsShown(node) && !BecomesSentence(node, model))
            foreach (var hole in plain.Contents.OfType<InterpolationSyntax>().Where(hole => IsSentence(model.GetTypeInfo(hole.Expression).Type))) problems.Add($"{At(hole, root)}: a sentence is made part of a text: {Short(hole)}");
        if (node is InterpolatedStringExpressionSyntax or BinaryExpressionSyntax && BecomesSentence(node, model))
        {
            var pattern = new StringBuilder();
            var at = 0;
            Pattern(node, pattern, ref at, model, root);
            Key(pattern.ToString(), node, root);
            return;
        }
        if (node is CastExpressionSyntax { Expression: var told } cast && IsSentence(model.GetTypeInfo(cast).Type) && model.GetConstantValue(told) is { HasValue: true, Value: string said })
        {
            Key(Escaped(said), node, root);
            return;
        }
        var conversion = model.GetConversion(node);
        if (conversion is { IsUserDefined: true, MethodSymbol: { } method } && IsSentence(method.ContainingType) && method.Parameters[0].Type.SpecialType == SpecialType.System_String) Leaf(node, model, root);
    }

    /// <summary>A text that becomes a sentence by itself: only one that is known when compiling may.</summary>
    private void Leaf(ExpressionSyntax node, SemanticModel model, string root)
    {
        switch (node)
        {
            case ParenthesizedExpressionSyntax inside: Leaf(inside.Expression, model, root); break;
            case ConditionalExpressionSyntax choice: Leaf(choice.WhenTrue, model, root); Leaf(choice.WhenFalse, model, root); break;
            case SwitchExpressionSyntax many: foreach (var arm in many.Arms) Leaf(arm.Expression, model, root); break;
            case BinaryExpressionSyntax { RawKind: (int)SyntaxKind.CoalesceExpression } either: Leaf(either.Left, model, root); Leaf(either.Right, model, root); break;
            case ThrowExpressionSyntax: break;
            case LiteralExpressionSyntax { RawKind: (int)SyntaxKind.NullLiteralExpression }: break;
            default:
                if (model.GetConstantValue(node) is { HasValue: true, Value: string text }) Key(Escaped(text), node, root);
                // What a seed file says stands in the file of texts by its own words; the test asks the seeds for them.
                else if (node.Parent?.Parent?.Parent is not InvocationExpressionSyntax { Expression: MemberAccessExpressionSyntax { Name.Identifier.Text: "Seed" } }) problems.Add($"{At(node, root)}: a text put together before it became a sentence: {Short(node)}");
                break;
        }
    }

    private void Pattern(ExpressionSyntax node, StringBuilder pattern, ref int at, SemanticModel model, string root)
    {
        if (node is BinaryExpressionSyntax sum)
        {
            Pattern(sum.Left, pattern, ref at, model, root);
            Pattern(sum.Right, pattern, ref at, model, root);
            return;
        }
        foreach (var content in ((InterpolatedStringExpressionSyntax)node).Contents)
        {
            if (content is InterpolatedStringTextSyntax words)
            {
                pattern.Append(Escaped(words.TextToken.ValueText));
                literals.Add(words.TextToken.ValueText);
                continue;
            }
            pattern.Append('{').Append(at++).Append('}');
            var hole = ((InterpolationSyntax)content).Expression;
            foreach (var loose in Constants(hole, model).Where(text => Word().IsMatch(text))) problems.Add($"{At(hole, root)}: the words “{loose}” are put into a sentence without being one");
        }
    }

    private IEnumerable<string> Constants(ExpressionSyntax node, SemanticModel model) => node switch
    {
        _ when model.GetConversion(node).IsUserDefined => [],
        ParenthesizedExpressionSyntax inside => Constants(inside.Expression, model),
        ConditionalExpressionSyntax choice => Constants(choice.WhenTrue, model).Concat(Constants(choice.WhenFalse, model)),
        SwitchExpressionSyntax many => many.Arms.SelectMany(arm => Constants(arm.Expression, model)),
        BinaryExpressionSyntax { RawKind: (int)SyntaxKind.CoalesceExpression } either => Constants(either.Left, model).Concat(Constants(either.Right, model)),
        InterpolatedStringExpressionSyntax inner when !BecomesSentence(inner, model) => inner.Contents.OfType<InterpolatedStringTextSyntax>().Select(text => text.TextToken.ValueText),
        _ => model.GetTypeInfo(node) is { Type.SpecialType: SpecialType.System_String, ConvertedType.SpecialType: SpecialType.System_String } && model.GetConstantValue(node) is { HasValue: true, Value: string text } ? [text] : [],
    };

    /// <summary>A page: no words outside sentences, no sentence written as it is.</summary>
    private void LookAtPage(SyntaxTree tree, SemanticModel model, string root)
    {
        var markup = new StringBuilder();
        var attribute = 0;
        foreach (var call in tree.GetRoot().DescendantNodes().OfType<InvocationExpressionSyntax>().OrderBy(call => call.SpanStart))
        {
            var name = (call.Expression as IdentifierNameSyntax)?.Identifier.Text ?? (call.Expression as MemberAccessExpressionSyntax)?.Name.Identifier.Text;
            var first = call.ArgumentList.Arguments.FirstOrDefault()?.Expression;
            switch (name)
            {
                case "BeginWriteTagHelperAttribute": attribute++; break;
                case "EndWriteTagHelperAttribute": attribute--; break;
                case "WriteLiteral" when first is LiteralExpressionSyntax { Token.Value: string text }: markup.Append(text); break;
                case "Write" or "WriteAttributeValue" or "AddHtmlAttributeValue":
                    var value = name == "Write" ? first : call.ArgumentList.Arguments.ElementAtOrDefault(2)?.Expression;
                    if (value is null) break;
                    if (IsSentence(model.GetTypeInfo(value).Type)) problems.Add($"{At(call, root)}: a sentence is written as it is, say @T[…]: {Short(value)}");
                    if (name == "Write" && attribute == 0)
                        foreach (var loose in Constants(value, model).Where(text => Word().IsMatch(text))) problems.Add($"{At(call, root)}: words outside a sentence: “{loose}”");
                    if (name == "Write") markup.Append('\u00A4');
                    break;
            }
        }
        foreach (Match spoken in Spoken().Matches(markup.ToString())) problems.Add($"{Page(tree, root)}: an attribute outside a sentence: {spoken.Value}");
        foreach (Match words in Word().Matches(Tag().Replace(markup.ToString(), "\n")).Where(words => words.Value.Trim() != "Cellarbook")) problems.Add($"{Page(tree, root)}: words outside a sentence: {words.Value}");
    }

    private void Key(string pattern, ExpressionSyntax node, string root)
    {
        literals.Add(pattern);
        if (Word().IsMatch(Hole().Replace(pattern, ""))) keys.TryAdd(pattern, new(Page(node.SyntaxTree, root), Line(node)));
    }

    private static bool IsShown(SyntaxNode node) => new[] { "Pages", "Forms" }.Any(folder => node.SyntaxTree.FilePath.Contains($"{Path.DirectorySeparatorChar}{folder}{Path.DirectorySeparatorChar}", StringComparison.Ordinal));

    /// <summary>True for an interpolated string that the compiler makes a sentence, by itself or by a cast.</summary>
    private bool BecomesSentence(ExpressionSyntax node, SemanticModel model) => (model.GetConversion(node) is { IsInterpolatedStringHandler: true } && IsSentence(model.GetTypeInfo(node).ConvertedType))
        || (node.Parent is CastExpressionSyntax cast && IsSentence(model.GetTypeInfo(cast).Type));

    private bool IsSentence(ITypeSymbol? type) => SymbolEqualityComparer.Default.Equals(type, Sentence);

    private static int Line(SyntaxNode node) => node.GetLocation().GetMappedLineSpan().StartLinePosition.Line + 1;

    private static string At(SyntaxNode node, string root) => $"{Page(node.SyntaxTree, root)}:{Line(node)}";

    private static string Page(SyntaxTree tree, string root)
    {
        var at = tree.FilePath.IndexOf("Pages" + Path.DirectorySeparatorChar, StringComparison.Ordinal);
        return tree.FilePath.EndsWith("_cshtml.g.cs", StringComparison.Ordinal) && at >= 0 ? tree.FilePath[at..].Replace("_cshtml.g.cs", ".cshtml", StringComparison.Ordinal) : Path.GetRelativePath(root, tree.FilePath);
    }

    private static string Short(SyntaxNode node) => node.ToString() is { Length: > 100 } text ? text[..100] + " …" : node.ToString();

    private static string Escaped(string text) => text.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal);

    [GeneratedRegex(@"\p{L}{2,}[^\n\u00A4]*")]
    private static partial Regex Word();

    [GeneratedRegex(@"\{\d+\}")]
    private static partial Regex Hole();

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tag();

    [GeneratedRegex("(aria-label|title|placeholder|alt|label)=\"[^\"\u00A4]*\\p{L}{2,}[^\"]*\"")]
    private static partial Regex Spoken();
}
