using System.Reflection;
using ArchUnitNET.Domain;
using ArchUnitNET.Domain.Dependencies;
using ArchUnitNET.Loader;
using Cellarbook.Core.Operations;
using Xunit;
using Type = System.Type;

namespace Cellarbook.Core.Tests.Shape;

/// <summary>How the core is built: on the base class library alone, without clock, culture or bare numbers in its book.</summary>
public class ShapeTests
{
    private static readonly System.Reflection.Assembly Core = typeof(Operation).Assembly;
    private static readonly Architecture Built = new ArchLoader().LoadAssembly(Core).Build();

    /// <summary>What may stand as a bare number in the book's public face, and why.</summary>
    private static readonly string[] BareNumbers =
    [
        // Entries are counted.
        "Entry.Number", "Deed.Entry", "Entry.TakesBack", "Entry.TakenBackBy", "Deed.TakesBack", "Book.LastNumber", "Book.Find", "Book.EffectsOf", "Book.ReadyCorrection", "Refusal.Entries", "Violation.Entry", "KnownEvent.Entry",
        "Disagreement.Entry", "NotedReading.Entry", "MixMark.Entry", "VesselFacts.Entry", "EntryReference.Number", "EntryNumber.Number", "Contribution.Entry", "WineNotes.Additions",
        "LossFigure.Entries", "LotAccountLine.Entries", "Deed.Stored", "Entry.Stored",
        // Shares in 10⁻¹² of a whole, the fine unit law 7 names, and weights they are made of.
        "OriginShare.Parts", "OriginMix.Whole", "OriginMix.Of",
        // Whole gallons as a form reports them: the form's own unit, nowhere in the book.
        "UsFigure.WholeGallons", "UsForm.WholeGallons",
    ];

    [Fact]
    public void The_core_stands_on_the_base_class_library_alone() =>
        Assert.All(Core.GetReferencedAssemblies(), reference => Assert.StartsWith("System.", reference.Name, StringComparison.Ordinal));

    [Fact]
    public void The_core_has_no_clock_culture_disk_net_or_console()
    {
        string[] forbidden =
        [
            "DateTime::get_Now", "DateTime::get_Today", "DateTime::get_UtcNow", "DateTimeOffset::get_Now", "DateTimeOffset::get_UtcNow", "TimeProvider", "System.Diagnostics.Stopwatch",
            "CultureInfo::get_CurrentCulture", "CultureInfo::get_CurrentUICulture", "CultureInfo::set_CurrentCulture", "System.IO.File", "System.IO.Directory", "System.IO.FileStream", "System.Net.", "System.Console", "System.Environment", "System.Random", "System.Guid::NewGuid", "System.Threading.Thread",
        ];
        var calls = Built.Types.SelectMany(type => type.Members.SelectMany(member => member.MemberDependencies.OfType<MethodCallDependency>()).Select(dependency => (From: type.FullName, To: dependency.TargetMember.FullName)))
            .Concat(Built.Types.SelectMany(type => type.Dependencies).Select(dependency => (From: dependency.Origin.FullName, To: dependency.Target.FullName))).Distinct().ToList();
        Assert.NotEmpty(calls);
        Assert.DoesNotContain(calls, call => Array.Exists(forbidden, word => call.To.Contains(word, StringComparison.Ordinal)));
        // The net is whole: it does see a member that is used.
        Assert.Contains(calls, call => call.To.Contains("CultureInfo::get_InvariantCulture", StringComparison.Ordinal));
    }

    [Fact]
    public void Law_12_no_bare_number_stands_in_the_public_face_of_the_book()
    {
        var found = from type in Core.GetExportedTypes()
                    where type.Namespace is "Cellarbook.Core.Book" or "Cellarbook.Core.Operations" or "Cellarbook.Core.Statements" or "Cellarbook.Core.Importing"
                    where !type.IsEnum && !typeof(Delegate).IsAssignableFrom(type)
                    from member in type.GetMembers(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly)
                    where Signature(member).Any(IsBare)
                    select $"{type.Name}.{member.Name}";
        var names = found.Distinct().Where(name => !name.EndsWith(".ctor", StringComparison.Ordinal) && !name.EndsWith(".Deconstruct", StringComparison.Ordinal)).ToList();
        Assert.Empty(names.Except(BareNumbers));
        Assert.Empty(BareNumbers.Except(names));
    }

    [Fact]
    public void No_type_is_named_for_doing_anything_at_all() =>
        Assert.DoesNotContain(Core.GetTypes().Select(type => type.Name).Where(name => !name.StartsWith('<')), name => new[] { "Manager", "Helper", "Util" }.Any(word => name.Contains(word, StringComparison.OrdinalIgnoreCase)));

    [Fact]
    public void No_interface_has_a_single_implementation() =>
        Assert.DoesNotContain(Core.GetTypes(), type => type.IsInterface && Core.GetTypes().Count(other => !other.IsInterface && type.IsAssignableFrom(other)) <= 1);

    [Fact]
    public void An_operation_is_a_sealed_record_with_a_word_of_its_own()
    {
        var kinds = Core.GetTypes().Where(type => type.IsSubclassOf(typeof(Operation)) && !type.IsAbstract).ToList();
        Assert.All(kinds, kind => Assert.True(kind.IsSealed));
        Assert.Equal(kinds.Select(kind => kind.Name).Order(), OperationJson.Kinds.Values.Select(kind => kind.Name).Order());
    }

    [Fact]
    public void An_entry_can_not_be_changed_from_outside() =>
        Assert.Empty(new[] { typeof(Book.Entry), typeof(Book.Deed), typeof(Book.Posting), typeof(Operation) }.SelectMany(type => type.GetProperties())
            .Where(property => property.SetMethod is { IsPublic: true } set && !set.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(System.Runtime.CompilerServices.IsExternalInit))).Select(property => property.Name));

    private static IEnumerable<Type> Signature(MemberInfo member) => member switch
    {
        PropertyInfo property => [property.PropertyType],
        FieldInfo field => [field.FieldType],
        MethodInfo { IsSpecialName: false } method when method.GetBaseDefinition().DeclaringType != typeof(object) => method.GetParameters().Select(parameter => parameter.ParameterType).Append(method.ReturnType),
        _ => [],
    };

    /// <summary>A double, decimal, float or long, also inside a nullable, list, array or pair. An int may count lines, rows and places of a list.</summary>
    private static bool IsBare(Type type)
    {
        if (type.IsArray || type.IsByRef) return IsBare(type.GetElementType()!);
        if (type.IsGenericType) return type.GetGenericArguments().Any(IsBare);
        return type == typeof(double) || type == typeof(decimal) || type == typeof(float) || type == typeof(long) || type == typeof(ulong);
    }
}
