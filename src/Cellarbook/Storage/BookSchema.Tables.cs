namespace Cellarbook.Storage;

/// <summary>Tables and indexes as the migrations make them; a test holds this text against a book made afresh.</summary>
internal static partial class BookSchema
{
    private static Dictionary<string, string> Tables => new(StringComparer.Ordinal)
    {
        ["index entry_by_event_id"] = """
            CREATE UNIQUE INDEX "entry_by_event_id" ON "entry" ("event_id") WHERE event_id IS NOT NULL
            """,
        ["index entry_by_key"] = """
            CREATE UNIQUE INDEX "entry_by_key" ON "entry" ("key") WHERE key IS NOT NULL
            """,
        ["table __EFMigrationsHistory"] = """
            CREATE TABLE "__EFMigrationsHistory" (
                "MigrationId" TEXT NOT NULL CONSTRAINT "PK___EFMigrationsHistory" PRIMARY KEY,
                "ProductVersion" TEXT NOT NULL
            ) STRICT
            """,
        ["table __EFMigrationsLock"] = """
            CREATE TABLE "__EFMigrationsLock" (
                "Id" INTEGER NOT NULL CONSTRAINT "PK___EFMigrationsLock" PRIMARY KEY,
                "Timestamp" TEXT NOT NULL
            )
            """,
        ["table contact"] = """
            CREATE TABLE "contact" (
                "id" INTEGER NOT NULL CONSTRAINT "PK_contact" PRIMARY KEY,
                "hash" BLOB NOT NULL,
                "salt" BLOB NULL,
                "text" TEXT NULL,
                CONSTRAINT "contact_blanked" CHECK ((salt IS NULL) = (text IS NULL)),
                CONSTRAINT "contact_hash" CHECK (length(hash) = 32),
                CONSTRAINT "contact_id" CHECK (id > 0),
                CONSTRAINT "contact_salt" CHECK (length(salt) = 16)
            ) STRICT
            """,
        ["table entry"] = """
            CREATE TABLE "entry" (
                "number" INTEGER NOT NULL CONSTRAINT "PK_entry" PRIMARY KEY,
                "form" INTEGER NOT NULL,
                "previous_hash" BLOB NOT NULL,
                "recorded_at" TEXT NOT NULL,
                "actor" TEXT NOT NULL,
                "key" TEXT NULL,
                "day" TEXT NOT NULL,
                "event_id" TEXT NULL,
                "takes_back" INTEGER NULL,
                "leaves_out" INTEGER NOT NULL,
                "content" TEXT NOT NULL,
                "content_hash" BLOB NOT NULL,
                "hash" BLOB NOT NULL,
                CONSTRAINT "entry_actor" CHECK (length(actor) > 0),
                CONSTRAINT "entry_content" CHECK (substr(content, 1, 1) = '{'),
                CONSTRAINT "entry_day" CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
                CONSTRAINT "entry_form" CHECK (form > 0),
                CONSTRAINT "entry_hashes" CHECK (length(previous_hash) = 32 AND length(content_hash) = 32 AND length(hash) = 32),
                CONSTRAINT "entry_leaves_out" CHECK (leaves_out = 0 OR (leaves_out = 1 AND takes_back IS NOT NULL)),
                CONSTRAINT "entry_number" CHECK (number > 0),
                CONSTRAINT "entry_recorded_at" CHECK (recorded_at GLOB '????-??-??T??:??:??.???Z'),
                CONSTRAINT "entry_takes_back" CHECK (takes_back > 0 AND takes_back < number)
            ) STRICT
            """,
        ["table head"] = """
            CREATE TABLE "head" (
                "id" INTEGER NOT NULL CONSTRAINT "PK_head" PRIMARY KEY,
                "number" INTEGER NOT NULL,
                "hash" BLOB NOT NULL,
                CONSTRAINT "head_hash" CHECK (length(hash) = 32),
                CONSTRAINT "head_number" CHECK (number >= 0),
                CONSTRAINT "head_one_row" CHECK (id = 1)
            ) STRICT
            """,
        ["table posting"] = """
            CREATE TABLE "posting" (
                "entry" INTEGER NOT NULL,
                "line" INTEGER NOT NULL,
                "deed" INTEGER NOT NULL,
                "taken_back" INTEGER NOT NULL,
                "category" TEXT NOT NULL,
                "from_account" TEXT NOT NULL,
                "to_account" TEXT NOT NULL,
                "volume_ul" INTEGER NOT NULL,
                "bottles" INTEGER NOT NULL,
                "bottle_ul" INTEGER NOT NULL,
                "grams" INTEGER NOT NULL,
                "strength" INTEGER NULL,
                "kind" TEXT NULL,
                "material" INTEGER NOT NULL,
                "unit" TEXT NULL,
                CONSTRAINT "PK_posting" PRIMARY KEY ("entry", "line"),
                CONSTRAINT "posting_kind" CHECK (kind IN ('still', 'carbonated', 'sparkling', 'cider')),
                CONSTRAINT "posting_names" CHECK (length(category) > 0 AND length(from_account) > 0 AND length(to_account) > 0),
                CONSTRAINT "posting_place" CHECK (line >= 0 AND deed >= 0),
                CONSTRAINT "posting_quantity" CHECK (volume_ul >= 0 AND bottles >= 0 AND bottle_ul >= 0 AND grams >= 0 AND material >= 0 AND (volume_ul > 0) + (grams > 0) + (material > 0) = 1),
                CONSTRAINT "posting_strength" CHECK (strength BETWEEN 0 AND 10000),
                CONSTRAINT "posting_taken_back" CHECK (taken_back IN (0, 1)),
                CONSTRAINT "posting_unit" CHECK ((unit IS NULL) = (material = 0) AND (unit IS NULL OR unit IN ('mg', 'ul', 'pieces'))),
                CONSTRAINT "FK_posting_entry_entry" FOREIGN KEY ("entry") REFERENCES "entry" ("number") ON DELETE RESTRICT
            ) STRICT, WITHOUT ROWID
            """,
    };
}
