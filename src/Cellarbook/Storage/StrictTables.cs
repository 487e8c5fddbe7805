using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Migrations.Operations;

namespace Cellarbook.Storage;

/// <summary>
/// Makes every table STRICT, so that a column holds what its type says; rebuilt tables and the migration history too. A table with a key of
/// several columns is stored in the order of that key (WITHOUT ROWID).
/// </summary>
internal sealed class StrictTables(MigrationsSqlGeneratorDependencies dependencies, IRelationalAnnotationProvider annotations)
    : SqliteMigrationsSqlGenerator(dependencies, annotations)
{
    protected override void Generate(CreateTableOperation operation, IModel? model, MigrationCommandListBuilder builder, bool terminate = true)
    {
        base.Generate(operation, model, builder, terminate: false);
        builder.Append(operation.PrimaryKey?.Columns.Length > 1 ? " STRICT, WITHOUT ROWID" : " STRICT");
        if (!terminate) return;
        builder.AppendLine(Dependencies.SqlGenerationHelper.StatementTerminator);
        EndStatement(builder);
    }
}
