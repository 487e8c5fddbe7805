using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Cellarbook.Storage.Migrations
{
    /// <summary>The insert-only guards. A later migration that rebuilds a table ends with the same line.</summary>
    public partial class Guards : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder) => Storage.Guards.Renew(migrationBuilder, "entry", "posting", "head");

        /// <summary>A book is never taken back to an older form; the backup made before an upgrade is restored instead.</summary>
        protected override void Down(MigrationBuilder migrationBuilder) => throw new System.NotSupportedException();
    }
}
