using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Cellarbook.Storage.Migrations
{
    /// <summary>People that entries name, so that a name can be blanked.</summary>
    public partial class Contacts : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "contact",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false),
                    hash = table.Column<byte[]>(type: "BLOB", nullable: false),
                    salt = table.Column<byte[]>(type: "BLOB", nullable: true),
                    text = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_contact", x => x.id);
                    table.CheckConstraint("contact_blanked", "(salt IS NULL) = (text IS NULL)");
                    table.CheckConstraint("contact_hash", "length(hash) = 32");
                    table.CheckConstraint("contact_id", "id > 0");
                    table.CheckConstraint("contact_salt", "length(salt) = 16");
                });
            Storage.Guards.Renew(migrationBuilder, "contact");
        }

        /// <summary>A book is never taken back to an older form; the backup made before an upgrade is restored instead.</summary>
        protected override void Down(MigrationBuilder migrationBuilder) => throw new System.NotSupportedException();
    }
}
