using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Cellarbook.Storage.Migrations
{
    /// <summary>
    /// Postings of what lies in the stores: an amount and its unit. The table is rebuilt by hand: what rebuilds it for a changed CHECK does so
    /// after everything else, and its guards would be gone.
    /// </summary>
    public partial class Stores : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""
                CREATE TABLE "posting_anew" (
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
                ) STRICT, WITHOUT ROWID;
                INSERT INTO posting_anew (entry, line, deed, taken_back, category, from_account, to_account, volume_ul, bottles, bottle_ul, grams, strength, kind, material, unit)
                SELECT entry, line, deed, taken_back, category, from_account, to_account, volume_ul, bottles, bottle_ul, grams, strength, kind, 0, NULL FROM posting;
                DROP TABLE posting;
                ALTER TABLE posting_anew RENAME TO posting;
                """);
            Storage.Guards.Renew(migrationBuilder, "posting");
        }

        /// <summary>A book is never taken back to an older form; the backup made before an upgrade is restored instead.</summary>
        protected override void Down(MigrationBuilder migrationBuilder) => throw new System.NotSupportedException();
    }
}
