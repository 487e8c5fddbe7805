using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Cellarbook.Storage.Migrations
{
    /// <summary>The tables of history: entry, posting and the head of the chain.</summary>
    public partial class Tables : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "entry",
                columns: table => new
                {
                    number = table.Column<long>(type: "INTEGER", nullable: false),
                    form = table.Column<int>(type: "INTEGER", nullable: false),
                    previous_hash = table.Column<byte[]>(type: "BLOB", nullable: false),
                    recorded_at = table.Column<string>(type: "TEXT", nullable: false),
                    actor = table.Column<string>(type: "TEXT", nullable: false),
                    key = table.Column<string>(type: "TEXT", nullable: true),
                    day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    event_id = table.Column<string>(type: "TEXT", nullable: true),
                    takes_back = table.Column<long>(type: "INTEGER", nullable: true),
                    leaves_out = table.Column<bool>(type: "INTEGER", nullable: false),
                    content = table.Column<string>(type: "TEXT", nullable: false),
                    content_hash = table.Column<byte[]>(type: "BLOB", nullable: false),
                    hash = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_entry", x => x.number);
                    table.CheckConstraint("entry_actor", "length(actor) > 0");
                    table.CheckConstraint("entry_content", "substr(content, 1, 1) = '{'");
                    table.CheckConstraint("entry_day", "day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'");
                    table.CheckConstraint("entry_form", "form > 0");
                    table.CheckConstraint("entry_hashes", "length(previous_hash) = 32 AND length(content_hash) = 32 AND length(hash) = 32");
                    table.CheckConstraint("entry_leaves_out", "leaves_out = 0 OR (leaves_out = 1 AND takes_back IS NOT NULL)");
                    table.CheckConstraint("entry_number", "number > 0");
                    table.CheckConstraint("entry_recorded_at", "recorded_at GLOB '????-??-??T??:??:??.???Z'");
                    table.CheckConstraint("entry_takes_back", "takes_back > 0 AND takes_back < number");
                });

            migrationBuilder.CreateTable(
                name: "head",
                columns: table => new
                {
                    id = table.Column<int>(type: "INTEGER", nullable: false),
                    number = table.Column<long>(type: "INTEGER", nullable: false),
                    hash = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_head", x => x.id);
                    table.CheckConstraint("head_hash", "length(hash) = 32");
                    table.CheckConstraint("head_number", "number >= 0");
                    table.CheckConstraint("head_one_row", "id = 1");
                });

            migrationBuilder.CreateTable(
                name: "posting",
                columns: table => new
                {
                    entry = table.Column<long>(type: "INTEGER", nullable: false),
                    line = table.Column<int>(type: "INTEGER", nullable: false),
                    deed = table.Column<int>(type: "INTEGER", nullable: false),
                    taken_back = table.Column<bool>(type: "INTEGER", nullable: false),
                    category = table.Column<string>(type: "TEXT", nullable: false),
                    from_account = table.Column<string>(type: "TEXT", nullable: false),
                    to_account = table.Column<string>(type: "TEXT", nullable: false),
                    volume_ul = table.Column<long>(type: "INTEGER", nullable: false),
                    bottles = table.Column<long>(type: "INTEGER", nullable: false),
                    bottle_ul = table.Column<long>(type: "INTEGER", nullable: false),
                    grams = table.Column<long>(type: "INTEGER", nullable: false),
                    strength = table.Column<int>(type: "INTEGER", nullable: true),
                    kind = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_posting", x => new { x.entry, x.line });
                    table.CheckConstraint("posting_kind", "kind IN ('still', 'carbonated', 'sparkling', 'cider')");
                    table.CheckConstraint("posting_names", "length(category) > 0 AND length(from_account) > 0 AND length(to_account) > 0");
                    table.CheckConstraint("posting_place", "line >= 0 AND deed >= 0");
                    table.CheckConstraint("posting_quantity", "volume_ul >= 0 AND bottles >= 0 AND bottle_ul >= 0 AND grams >= 0 AND (volume_ul > 0 OR grams > 0)");
                    table.CheckConstraint("posting_strength", "strength BETWEEN 0 AND 10000");
                    table.CheckConstraint("posting_taken_back", "taken_back IN (0, 1)");
                    table.ForeignKey(
                        name: "FK_posting_entry_entry",
                        column: x => x.entry,
                        principalTable: "entry",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.InsertData(
                table: "head",
                columns: new[] { "id", "hash", "number" },
                values: new object[] { 1, new byte[] { 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0 }, 0L });

            migrationBuilder.CreateIndex(
                name: "entry_by_event_id",
                table: "entry",
                column: "event_id",
                unique: true,
                filter: "event_id IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "entry_by_key",
                table: "entry",
                column: "key",
                unique: true,
                filter: "key IS NOT NULL");
        }

        /// <summary>A book is never taken back to an older form; the backup made before an upgrade is restored instead.</summary>
        protected override void Down(MigrationBuilder migrationBuilder) => throw new NotSupportedException();
    }
}
