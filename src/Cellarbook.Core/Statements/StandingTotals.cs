using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Statements;

/// <summary>What is on hand by section and standing, moved along by effects; any regime can read its classes from it.</summary>
internal sealed class StandingTotals
{
    private readonly Dictionary<(Section Section, Standing Standing), (Volume Volume, BottleCount Bottles)> totals;

    public StandingTotals() => totals = [];

    public StandingTotals(StandingTotals other) => totals = new(other.totals);

    public IEnumerable<(Section Section, Standing Standing, Volume Volume, BottleCount Bottles)> All =>
        totals.Where(pair => !pair.Value.Volume.IsNil || pair.Value.Bottles.Bottles != 0).Select(pair => (pair.Key.Section, pair.Key.Standing, pair.Value.Volume, pair.Value.Bottles));

    public void Apply(IReadOnlyList<Effect> effects, Func<string, Volume> sizeOf)
    {
        for (var i = 0; i < effects.Count; i++)
        {
            var effect = effects[i];
            switch (effect.Kind)
            {
                case EffectKind.Move:
                    var posting = effect.Deed.Postings[effect.Posting];
                    Change(posting.From, effect.Before, -posting.Volume, -posting.Bottles);
                    Change(posting.To, effect.After, posting.Volume, posting.Bottles);
                    break;
                case EffectKind.Restated:
                    Change(effect.Account!, effect.Before, -effect.Volume, -Bottles(effect, sizeOf));
                    Change(effect.Account!, effect.After, effect.Volume, Bottles(effect, sizeOf));
                    break;
                case EffectKind.MetPart:
                    Change(effect.Account!, effect.Before, -effect.Volume, -Bottles(effect, sizeOf));
                    break;
                case EffectKind.MetResult:
                    Change(effect.Account!, effect.After, effect.Volume, Bottles(effect, sizeOf));
                    break;
            }
        }
    }

    private static BottleCount Bottles(Effect effect, Func<string, Volume> sizeOf) =>
        effect.Account!.Section == Section.Bottled ? new(effect.Volume.Microlitres / sizeOf(effect.Account.Name).Microlitres) : default;

    private void Change(Account account, Standing standing, Volume volume, BottleCount bottles)
    {
        if (account.Section is not (Section.Must or Section.Bulk or Section.Bottled)) return;
        var key = (account.Section, account.Section == Section.Must ? Standing.Unstated : standing);
        var (v, b) = totals.GetValueOrDefault(key);
        totals[key] = (v + volume, account.Section == Section.Bottled ? b + bottles : b);
    }
}
