using Cellarbook.Core.Book;
using Cellarbook.Core.Importing;
using Cellarbook.Core.Operations;
using CsvHelper;

namespace Cellarbook.Imports;

/// <summary>Reads a journal file of volumes from a stream of UTF-8 CSV into events; says what is wrong with the file.</summary>
public static class JournalUpload
{
    /// <summary>The largest file taken, in bytes.</summary>
    public const long MostBytes = 150L * 1024 * 1024;

    private static readonly CsvReaderOptions Strict = CsvReaderOptions.Default with
    {
        Separator = ',',
        HasHeader = false,
        MalformedData = CsvMalformedDataHandling.Throw,
        FieldCountMismatch = CsvFieldCountHandling.Allow,
        MaxRecordSize = 1 << 20,
        PoolStrings = true,
    };

    /// <summary>A larger file is refused.</summary>
    public static Refusal TooLarge => new(RefusalCode.TooLarge, "", $"A file has at most {MostBytes >> 20} MB. Send it in parts, oldest first.");

    /// <summary>Reads all of it. Blank lines are passed over; a byte order mark and CRLF are fine; UTF-16 and binary files are not.</summary>
    public static JournalRead Read(Stream stream, DateOnly today, IProgress<int>? progress = null)
    {
        var head = new byte[4096];
        var got = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        var start = head.AsSpan(0, got);
        if (start.StartsWith<byte>([0xFF, 0xFE]) || start.StartsWith<byte>([0xFE, 0xFF])) return Refuse(RefusalCode.Unreadable, "The file is UTF-16. Save it as CSV in UTF-8 and send it again.");
        if (start.Contains((byte)0)) return Refuse(RefusalCode.Unreadable, "This is not a CSV file. Save it as CSV in UTF-8 and send it again.");
        if (got == 0) return Refuse(RefusalCode.Empty, "The file is empty.");
        try
        {
            using var csv = CsvReader.Create(new Joined(start.ToArray(), stream), Strict, leaveOpen: true);
            var refusals = new List<Refusal>();
            if (!csv.Read()) return Refuse(RefusalCode.Empty, "The file is empty.");
            var columns = JournalColumns.Read(csv.Current.ToArray(), refusals);
            if (columns is null) return new([], refusals);
            var reader = new JournalReader(columns);
            var fields = new string[columns.Count];
            while (csv.Read())
            {
                if (reader.RowsRead % 1_000 == 0) progress?.Report(reader.RowsRead);
                if (csv.FieldCount != fields.Length)
                {
                    reader.Add(csv.Current.ToArray());
                    continue;
                }
                for (var i = 0; i < fields.Length; i++) fields[i] = csv.GetString(i);
                reader.Add(fields);
            }
            var events = reader.Events(today);
            return new(events, reader.Refusals) { Rows = reader.RowsRead, RefusedBesides = reader.RefusedBesides };
        }
        catch (CsvFormatException fault)
        {
            return Refuse(RefusalCode.Unreadable, "The file is no well-formed CSV (an unclosed quote, or a quote inside a field). Mend that row and send the file again.", (int)Math.Max(1, fault.RecordNumber - 1));
        }
    }

    private static JournalRead Refuse(RefusalCode code, Sentence sentence, int? row = null) => new([], [new(code, "", sentence) { Row = row }]);

    /// <summary>The bytes looked at first, then the rest of the stream.</summary>
    private sealed class Joined(byte[] first, Stream rest) : Stream
    {
        private int at;

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override int Read(Span<byte> buffer)
        {
            if (at >= first.Length) return rest.Read(buffer);
            var n = Math.Min(buffer.Length, first.Length - at);
            first.AsSpan(at, n).CopyTo(buffer);
            at += n;
            return n;
        }

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
