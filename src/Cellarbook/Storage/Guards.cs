using Microsoft.EntityFrameworkCore.Migrations;

namespace Cellarbook.Storage;

/// <summary>
/// The insert-only guards of history (laws 4 and 10): the one text they are made from, and that they are held against at every start. Any
/// migration that rebuilds a table must end with <see cref="Renew"/>, because a rebuild drops them without a word.
/// </summary>
internal static class Guards
{
    /// <summary>
    /// Each guard by name. Those before INSERT stop INSERT OR REPLACE, which deletes without firing a delete trigger unless
    /// recursive_triggers is on, as other programs leave it.
    /// </summary>
    public static IReadOnlyDictionary<string, string> ByName { get; } = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        ["entry_no_update"] = "CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END",
        ["entry_no_delete"] = "CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never removed'); END",
        ["entry_next_only"] = """
            CREATE TRIGGER entry_next_only BEFORE INSERT ON entry
            WHEN NEW.number IS NOT (SELECT coalesce(max(number), 0) + 1 FROM entry)
              OR EXISTS (SELECT 1 FROM entry WHERE key = NEW.key)
              OR EXISTS (SELECT 1 FROM entry WHERE event_id = NEW.event_id)
            BEGIN SELECT RAISE(ABORT, 'an entry takes the next number, a new key and a new event id'); END
            """,
        ["posting_no_update"] = "CREATE TRIGGER posting_no_update BEFORE UPDATE ON posting BEGIN SELECT RAISE(ABORT, 'postings are never changed'); END",
        ["posting_no_delete"] = "CREATE TRIGGER posting_no_delete BEFORE DELETE ON posting BEGIN SELECT RAISE(ABORT, 'postings are never removed'); END",
        // The head moves at the end of a transaction: what it has passed is sealed, existing postings and further ones alike.
        ["posting_unsealed_only"] = """
            CREATE TRIGGER posting_unsealed_only BEFORE INSERT ON posting
            WHEN NEW.entry <= (SELECT number FROM head)
            BEGIN SELECT RAISE(ABORT, 'an entry takes no further postings once it is recorded'); END
            """,
        ["contact_next_only"] = """
            CREATE TRIGGER contact_next_only BEFORE INSERT ON contact
            WHEN NEW.id IS NOT (SELECT coalesce(max(id), 0) + 1 FROM contact) OR NEW.text IS NULL
            BEGIN SELECT RAISE(ABORT, 'a contact takes the next number and has a text'); END
            """,
        ["contact_no_delete"] = "CREATE TRIGGER contact_no_delete BEFORE DELETE ON contact BEGIN SELECT RAISE(ABORT, 'contacts are never removed, only blanked'); END",
        // The one change: a text and its salt blanked. The entry that says so is checked with the chain.
        ["contact_blank_only"] = """
            CREATE TRIGGER contact_blank_only BEFORE UPDATE ON contact
            WHEN NEW.id IS NOT OLD.id OR NEW.hash IS NOT OLD.hash OR NEW.salt IS NOT NULL OR NEW.text IS NOT NULL
            BEGIN SELECT RAISE(ABORT, 'a contact is blanked or stays as it is'); END
            """,
        ["head_no_insert"] = "CREATE TRIGGER head_no_insert BEFORE INSERT ON head WHEN EXISTS (SELECT 1 FROM head) BEGIN SELECT RAISE(ABORT, 'there is one head'); END",
        ["head_no_delete"] = "CREATE TRIGGER head_no_delete BEFORE DELETE ON head BEGIN SELECT RAISE(ABORT, 'the head is never removed'); END",
        ["head_forward_only"] = """
            CREATE TRIGGER head_forward_only BEFORE UPDATE ON head
            WHEN NEW.id IS NOT OLD.id OR NEW.number <= OLD.number
              OR NEW.number IS NOT (SELECT max(number) FROM entry)
              OR NEW.hash IS NOT (SELECT hash FROM entry WHERE number = NEW.number)
            BEGIN SELECT RAISE(ABORT, 'the head follows the last entry'); END
            """,
    }.ToDictionary(guard => guard.Key, guard => guard.Value.ReplaceLineEndings("\n"), StringComparer.Ordinal);

    /// <summary>Makes the guards of some tables anew, at the end of a migration that made or rebuilt them.</summary>
    public static void Renew(MigrationBuilder migration, params string[] tables)
    {
        foreach (var (name, sql) in ByName.Where(guard => tables.Any(table => guard.Key.StartsWith(table + "_", StringComparison.Ordinal)))) migration.Sql($"DROP TRIGGER IF EXISTS {name};\n{sql};");
    }
}
