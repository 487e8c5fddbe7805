using System.Text;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Cellarbook.Storage;

/// <summary>A prepared command on a connection, without boxing or strings on the way: for what is done a million times.</summary>
internal sealed class Statement : IDisposable
{
    private readonly sqlite3 database;
    private readonly sqlite3_stmt handle;

    public Statement(SqliteConnection connection, string sql)
    {
        database = connection.Handle!;
        Check(raw.sqlite3_prepare_v2(database, sql, out handle));
    }

    /// <summary>Binds a whole number to the parameter, counted from 1.</summary>
    public void Bind(int parameter, long value) => Check(raw.sqlite3_bind_int64(handle, parameter, value));

    /// <summary>Binds a whole number or null.</summary>
    public void Bind(int parameter, long? value)
    {
        if (value is { } number) Bind(parameter, number);
        else BindNull(parameter);
    }

    /// <summary>Binds a text in UTF-8.</summary>
    public void Bind(int parameter, ReadOnlySpan<byte> utf8) =>
        // An empty span has no address, which SQLite would take for null.
        Check(utf8.IsEmpty ? raw.sqlite3_bind_text(handle, parameter, "") : raw.sqlite3_bind_text(handle, parameter, utf8));

    /// <summary>Binds a text or null.</summary>
    public void Bind(int parameter, string? text)
    {
        if (text is null) BindNull(parameter);
        else Bind(parameter, Encoding.UTF8.GetBytes(text));
    }

    /// <summary>Binds bytes.</summary>
    public void BindBlob(int parameter, ReadOnlySpan<byte> bytes) => Check(raw.sqlite3_bind_blob(handle, parameter, bytes));

    /// <summary>Binds null.</summary>
    public void BindNull(int parameter) => Check(raw.sqlite3_bind_null(handle, parameter));

    /// <summary>Steps to the next row; false when there is none.</summary>
    public bool Step()
    {
        var code = raw.sqlite3_step(handle);
        if (code == raw.SQLITE_ROW) return true;
        if (code == raw.SQLITE_DONE) return false;
        throw Fault(code);
    }

    /// <summary>Runs a command that gives no rows, and makes it ready for the next time.</summary>
    public void Run()
    {
        var code = raw.sqlite3_step(handle);
        if (code != raw.SQLITE_DONE && code != raw.SQLITE_ROW)
        {
            var fault = Fault(code);
            raw.sqlite3_reset(handle);
            throw fault;
        }
        raw.sqlite3_reset(handle);
    }

    /// <summary>Makes it ready for the next time.</summary>
    public void Reset() => raw.sqlite3_reset(handle);

    /// <summary>A whole number of the row, by column from 0.</summary>
    public long Long(int column) => raw.sqlite3_column_int64(handle, column);

    /// <summary>True when the column is null.</summary>
    public bool IsNull(int column) => raw.sqlite3_column_type(handle, column) == raw.SQLITE_NULL;

    /// <summary>Bytes of a text or blob of the row; valid until the next step.</summary>
    public ReadOnlySpan<byte> Bytes(int column) => raw.sqlite3_column_blob(handle, column);

    /// <summary>A text of the row, or null.</summary>
    public string? Text(int column) => IsNull(column) ? null : Encoding.UTF8.GetString(Bytes(column));

    /// <inheritdoc/>
    public void Dispose() => handle.Dispose();

    private void Check(int code)
    {
        if (code != raw.SQLITE_OK) throw Fault(code);
    }

    private SqliteException Fault(int code) => new($"SQLite: {raw.sqlite3_errmsg(database).utf8_to_string()}", code & 0xff, raw.sqlite3_extended_errcode(database));
}
