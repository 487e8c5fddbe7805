using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;

namespace Cellarbook.Core.Importing;

/// <summary>Finds the postings of an imported event: resolves places row by row, seeing what its earlier rows did.</summary>
internal sealed class EventPostings(Deciding deciding, Imported imported)
{
    private readonly Dictionary<Account, Volume> moved = [];
    private readonly Dictionary<string, List<Account>> fresh = new(StringComparer.Ordinal);

    /// <summary>Posts every row that takes nothing back.</summary>
    public void Decide()
    {
        var rows = imported.Rows ?? [];
        var contractionBackwards = EventDirections.BringsToNilBackwards(rows.Where(row => row.Reverses is null));
        for (var index = 0; index < rows.Count; index++)
        {
            var row = rows[index];
            if (row.Reverses is not null) continue;
            var category = Category.Of(row.Category);
            if (category.MovesNothing)
            {
                Treatment(row, index);
                continue;
            }
            var backwards = EventDirections.Backwards(row, contractionBackwards);
            var (give, receive) = backwards ? (category.To, category.From) : (category.From, category.To);
            var from = Resolve(give, row, row.LotFrom, row.VesselFrom, giving: true, index, "lot_from");
            var to = Resolve(receive, row, row.LotTo, row.VesselTo, giving: false, index, "lot_to");
            if (from is null || to is null) continue;
            Post(row, category, from, to, index);
        }
    }

    private void Post(ImportedRow row, Category category, Account from, Account to, int index)
    {
        var volume = row.VolumeMl!.Value.Volume;
        var kind = row.Product ?? KindTold(category, from, to, index);
        if (from.Section == Section.Bottled || to.Section == Section.Bottled)
        {
            var bottling = from.Section == Section.Bottled ? from.Name : to.Name;
            if (deciding.Cellar.Bottling(bottling) is { } known && known.Size != row.BottleMl!.Value.Volume)
            {
                Refuse(RefusalCode.OtherBottleSize, index, "bottle_ml", $"Bottling {bottling} is of {ExactNumber.Write(known.Size.Microlitres, 3)} mL; a bottling has one size.");
                return;
            }
            deciding.PostBottles(category.Code, from, to, row.Bottles!.Value, row.BottleMl!.Value.Volume, row.Abv, kind);
        }
        else deciding.Post(category.Code, from, to, volume, row.Abv, kind);
        Move(from, -volume);
        Move(to, volume);
    }

    /// <summary>The kind an account column tells, kept only where nothing else would tell it.</summary>
    private ProductKind? KindTold(Category category, Account from, Account to, int index)
    {
        if (!to.Section.IsWine()) return null;
        var told = Told(index);
        var kind = told?.To?.Kind ?? (category.To.ClassTold.Length > 0 ? ClassScheme.Default.KindOf(category.To.ClassTold) : null);
        if (kind is null) return null;
        if (from.Section.IsWine()) return told?.From?.Kind is { } giving && giving != kind ? kind : null;
        if (from.Section == Section.Process) return kind;
        var usual = deciding.Cellar.At(to).Standing.Kind;
        return kind != usual ? kind : null;
    }

    private Account? Resolve(Category.Side side, ImportedRow row, string? lot, string? vessel, bool giving, int index, string column)
    {
        if (side.Sections.Count == 0) return Account.Counter((giving ? Told(index)?.From : Told(index)?.To)?.Name ?? side.Counters[0]);
        if (side.IsProcess) return Account.Process;
        var section = side.Sections.Count == 1 ? side.Sections[0] : side.Sections.First(allowed => allowed.Word() == row.Section);
        if (vessel is not null && !(giving && !Knows(section, lot!))) return Account.Stock(section, lot!, vessel);
        var known = (section == Section.Bottled ? deciding.Cellar.ShelvesOfBottling(lot!) : deciding.Cellar.AccountsOfLot(lot!))
            .Concat(fresh.GetValueOrDefault(lot!) ?? []).Where(account => account.Section == section).Distinct().ToArray();
        if (known.Length == 0 && giving)
        {
            Refuse(section == Section.Bottled ? RefusalCode.UnknownBottling : RefusalCode.UnknownLot, index, column, section == Section.Bottled ? (Sentence)$"There is no bottling {lot} on {imported.Day:yyyy-MM-dd}." : section == Section.Must ? (Sentence)$"There is no must of lot {lot} on {imported.Day:yyyy-MM-dd}." : section == Section.Bulk ? (Sentence)$"There is no wine of lot {lot} on {imported.Day:yyyy-MM-dd}." : $"There is no lot {lot} on {imported.Day:yyyy-MM-dd}.");
            return null;
        }
        if (known.Length == 0) return Account.Stock(section, lot!, Account.Unplaced);
        var filled = known.Where(account => (deciding.Cellar.At(account).Volume + moved.GetValueOrDefault(account)).IsPositive).ToArray();
        if (filled.Length == 1) return filled[0];
        if (filled.Length == 0) return known[^1];
        Refuse(RefusalCode.SeveralPlaces, index, giving ? "vessel_from" : "vessel_to", $"{lot} lies in several places ({string.Join(", ", filled.Select(account => account.Place))}). Name one.");
        return null;
    }

    private bool Knows(Section section, string lot) =>
        fresh.TryGetValue(lot, out var named) && named.Exists(account => account.Section == section)
        || (section == Section.Bottled ? !deciding.Cellar.ShelvesOfBottling(lot).IsEmpty : deciding.Cellar.AccountsOfLot(lot).Any(account => account.Section == section));

    private void Treatment(ImportedRow row, int index)
    {
        var lot = row.LotFrom ?? row.LotTo;
        if (lot is not null && deciding.Cellar.AccountsOfLot(lot).IsEmpty && deciding.Cellar.ShelvesOfBottling(lot).IsEmpty && !fresh.ContainsKey(lot))
            Refuse(RefusalCode.UnknownLot, index, row.LotFrom is null ? "lot_to" : "lot_from", $"There is no lot {lot} on {imported.Day:yyyy-MM-dd}.");
    }

    private void Move(Account account, Volume volume)
    {
        if (!account.IsStock) return;
        moved[account] = moved.GetValueOrDefault(account) + volume;
        if (deciding.Cellar.Knows(account)) return;
        if (!fresh.TryGetValue(account.Name, out var named)) fresh.Add(account.Name, named = []);
        if (!named.Contains(account)) named.Add(account);
    }

    private ToldAccounts? Told(int index) => imported.Told?[index];

    private void Refuse(RefusalCode code, int index, string path, Sentence sentence) => deciding.Refuse(code, path, sentence, imported.RowNumbers?[index]);
}
