using System.Text.RegularExpressions;
using System.Xml.Linq;
using Cellarbook.Core;
using Cellarbook.Core.Book;
using Cellarbook.Core.Cautions;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Chemistry;
using Cellarbook.Core.Noticing;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Stores;

namespace Cellarbook.Tests.Texts;

/// <summary>All that pages say stands in one file a language: nothing is missing there, nothing is dead, and what is put into a sentence is put into its translation.</summary>
public partial class TextsTests
{
    [Fact]
    public void Nothing_a_page_says_escapes_translation() => Assert.True(SourceTexts.Read.Problems.Count == 0, string.Join('\n', SourceTexts.Read.Problems));

    [Fact]
    public void Every_sentence_is_in_the_file_of_texts()
    {
        var missing = Said().Keys.Except(Texts("").Keys).Select(key => $"{Said()[key]}\t{key}").ToList();
        Assert.True(SourceTexts.Read.Keys.Count > 500, "The sources were not read.");
        Assert.True(missing.Count == 0, string.Join('\n', missing));
    }

    [Fact]
    public void No_text_is_dead()
    {
        var alive = Said();
        Assert.All(Texts("").Keys, key => Assert.True(alive.ContainsKey(key) || SourceTexts.Read.Literals.Contains(key), key));
    }

    [Fact]
    public void English_says_what_the_sources_say() => Assert.All(Texts(""), text => Assert.Equal(text.Key, text.Value));

    [Fact]
    public void German_says_all_that_English_says_and_nothing_dead()
    {
        Assert.Equal(Texts("").Keys.Order(StringComparer.Ordinal), Texts(".de").Keys.Order(StringComparer.Ordinal));
        Assert.All(Texts(".de"), text => Assert.False(string.IsNullOrWhiteSpace(text.Value) && !string.IsNullOrWhiteSpace(text.Key), text.Key));
        // A translation that is the English word for word is a code, a name or a symbol; there are few of them.
        Assert.True(Texts(".de").Count(text => text.Key == text.Value && text.Key.Contains(' ', StringComparison.Ordinal)) < 100);
    }

    [Fact]
    public void What_is_put_into_a_sentence_is_put_into_its_translation() =>
        Assert.All(Texts(".de"), text => Assert.True(Holes(text.Key) == Holes(text.Value), $"{text.Key} / {text.Value}"));

    [Fact]
    public void What_somebody_wrote_is_said_as_it_stands() =>
        Assert.All(new[] { "Lees", "{0}", "{", "a { b } c {1}" }, written => Assert.Equal(written, Cellarbook.Texts.Texts.Say(Sentence.Verbatim(written), "de")));

    /// <summary>What the sources and the seed files say, with where.</summary>
    private static Dictionary<string, string> Said()
    {
        var said = SourceTexts.Read.Keys.ToDictionary(pair => pair.Key, pair => pair.Value.ToString(), StringComparer.Ordinal);
        void Seed(IEnumerable<Sentence> sentences, string from)
        {
            foreach (var sentence in sentences.Where(sentence => sentence.Parts.Count == 0 && Letters().IsMatch(sentence.Pattern))) said.TryAdd(sentence.Pattern, from);
        }
        Seed(Category.All.Select(category => Sentence.Seed(category.Term)), "kinds of movement");
        Seed(WaysOut.Words.Select(word => Sentence.Seed(WaysOut.Meaning(word))), "ways out");
        Seed(Habits.Usual.All.SelectMany(habit => new[] { habit.Unit, habit.Means, habit.Source }), "habits");
        Seed(UsForm.Current.Sections.SelectMany(section => section.Lines).Select(line => line.Label), "lines of a form");
        Seed(ClassScheme.Default.Classes.Select(wine => wine.Words), "classes");
        Seed(BenchCalculators.All.SelectMany(calculator => calculator.Inputs).Select(input => Sentence.Seed(input.Unit)), "units of the bench");
        Seed(new[] { Cellarbook.Forms.Unit.Volumes, Cellarbook.Forms.Unit.Weights, Cellarbook.Forms.Unit.Masses, Cellarbook.Forms.Unit.Amounts, Cellarbook.Forms.Unit.Cultures }.SelectMany(units => units).Select(unit => Sentence.Seed(unit.Name)), "units of forms");
        Seed(CautionSheet.All.SelectMany(caution => new[] { caution.Head, caution.Sentence, caution.Source }.Append(Sentence.Seed(char.ToUpperInvariant(caution.Hazard[0]) + caution.Hazard[1..]))), "cautions");
        Seed(Catalogue.Generic.Select(material => Sentence.Seed(material.Name)), "materials");
        Seed(Substances.All.Select(substance => substance.Said).Concat(LimitWords.AllSaid).Concat(LimitValue.Units.Select(Sentence.Seed)).Concat(LimitWords.SetKinds.Select(Sentence.Seed)), "limits");
        Seed(LawSets.All.SelectMany(set => set.Rows.Select(row => row.Note).Concat([set.Name, set.Note]).Select(Sentence.Seed)), "rows of limits");
        Seed(PotentialAlcohol.Factors.SelectMany(factor => new[] { factor.Label, factor.Source }), "sugar per strength");
        Seed(CautionSheet.All.SelectMany(caution => caution.Facts).SelectMany(fact => new[] { fact.Agent, fact.Fact }.Concat(fact.Figure.Parts.Concat(fact.Where.Parts).Select(part => (Sentence)part.Value!))), "facts of cautions");
        Seed(Cellarbook.Core.Wording.Term.All.SelectMany(term => new[] { term.Name, term.Plain }), "words");
        return said;
    }

    private static Dictionary<string, string> Texts(string language) =>
        XDocument.Load(Path.Combine(SourceTexts.Root(), "src", "Cellarbook", "Texts", $"Texts{language}.resx")).Root!.Elements("data")
            .ToDictionary(entry => entry.Attribute("name")!.Value, entry => entry.Element("value")!.Value, StringComparer.Ordinal);

    private static string Holes(string pattern) => string.Join(' ', Hole().Matches(pattern).Select(match => match.Value).Distinct().Order(StringComparer.Ordinal));

    [GeneratedRegex(@"\{\d+\}")]
    private static partial Regex Hole();

    [GeneratedRegex(@"\p{L}{2,}")]
    private static partial Regex Letters();
}
