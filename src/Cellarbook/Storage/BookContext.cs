using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Cellarbook.Storage;

/// <summary>
/// The tables of book.db: history and nothing else. Accounts, sessions and preferences live in another file. What EF does here is the schema,
/// its migrations and the paged reading; entries are written by <see cref="BookStore.Append"/> alone.
/// </summary>
public sealed class BookContext(DbContextOptions<BookContext> options) : DbContext(options)
{
    /// <summary>Entries, by number.</summary>
    public DbSet<EntryRow> Entries => Set<EntryRow>();

    /// <summary>Postings, by entry and line.</summary>
    public DbSet<PostingRow> Postings => Set<PostingRow>();

    /// <summary>People named in entries, by number.</summary>
    public DbSet<ContactRow> Contacts => Set<ContactRow>();

    /// <summary>The head of the chain.</summary>
    public DbSet<HeadRow> Head => Set<HeadRow>();

    /// <summary>Options for a context on that connection string: STRICT tables, our pragmas on every connection, nothing tracked.</summary>
    public static DbContextOptions<BookContext> OptionsFor(string connectionString) => new DbContextOptionsBuilder<BookContext>()
        .UseSqlite(connectionString)
        .ReplaceService<IMigrationsSqlGenerator, StrictTables>()
        .AddInterceptors(new PragmaInterceptor())
        .UseQueryTrackingBehavior(QueryTrackingBehavior.NoTracking)
        .Options;

    /// <inheritdoc/>
    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        modelBuilder.Entity<EntryRow>(Entry);
        modelBuilder.Entity<PostingRow>(Posting);
        modelBuilder.Entity<ContactRow>(Contact);
        modelBuilder.Entity<HeadRow>(HeadOfChain);
    }

    private static void Entry(EntityTypeBuilder<EntryRow> entry)
    {
        entry.ToTable("entry", table =>
        {
            table.HasCheckConstraint("entry_number", "number > 0");
            table.HasCheckConstraint("entry_form", "form > 0");
            table.HasCheckConstraint("entry_hashes", "length(previous_hash) = 32 AND length(content_hash) = 32 AND length(hash) = 32");
            table.HasCheckConstraint("entry_recorded_at", "recorded_at GLOB '????-??-??T??:??:??.???Z'");
            table.HasCheckConstraint("entry_actor", "length(actor) > 0");
            table.HasCheckConstraint("entry_day", "day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'");
            table.HasCheckConstraint("entry_takes_back", "takes_back > 0 AND takes_back < number");
            table.HasCheckConstraint("entry_leaves_out", "leaves_out = 0 OR (leaves_out = 1 AND takes_back IS NOT NULL)");
            table.HasCheckConstraint("entry_content", "substr(content, 1, 1) = '{'");
        });
        entry.HasKey(row => row.Number);
        entry.Property(row => row.Number).HasColumnName("number").ValueGeneratedNever();
        entry.Property(row => row.Form).HasColumnName("form");
        entry.Property(row => row.PreviousHash).HasColumnName("previous_hash");
        entry.Property(row => row.RecordedAt).HasColumnName("recorded_at");
        entry.Property(row => row.Actor).HasColumnName("actor");
        entry.Property(row => row.Key).HasColumnName("key");
        entry.Property(row => row.Day).HasColumnName("day");
        entry.Property(row => row.EventId).HasColumnName("event_id");
        entry.Property(row => row.TakesBack).HasColumnName("takes_back");
        entry.Property(row => row.LeavesOut).HasColumnName("leaves_out");
        entry.Property(row => row.Content).HasColumnName("content");
        entry.Property(row => row.ContentHash).HasColumnName("content_hash");
        entry.Property(row => row.Hash).HasColumnName("hash");
        entry.HasIndex(row => row.Key).IsUnique().HasDatabaseName("entry_by_key").HasFilter("key IS NOT NULL");
        entry.HasIndex(row => row.EventId).IsUnique().HasDatabaseName("entry_by_event_id").HasFilter("event_id IS NOT NULL");
        entry.HasMany(row => row.Postings).WithOne().HasForeignKey(row => row.Entry).OnDelete(DeleteBehavior.Restrict);
    }

    private static void Posting(EntityTypeBuilder<PostingRow> posting)
    {
        posting.ToTable("posting", table =>
        {
            table.HasCheckConstraint("posting_place", "line >= 0 AND deed >= 0");
            table.HasCheckConstraint("posting_taken_back", "taken_back IN (0, 1)");
            table.HasCheckConstraint("posting_names", "length(category) > 0 AND length(from_account) > 0 AND length(to_account) > 0");
            // Law 1: a posting moves a positive quantity.
            table.HasCheckConstraint("posting_quantity", "volume_ul >= 0 AND bottles >= 0 AND bottle_ul >= 0 AND grams >= 0 AND material >= 0 AND (volume_ul > 0) + (grams > 0) + (material > 0) = 1");
            table.HasCheckConstraint("posting_unit", "(unit IS NULL) = (material = 0) AND (unit IS NULL OR unit IN ('mg', 'ul', 'pieces'))");
            table.HasCheckConstraint("posting_strength", "strength BETWEEN 0 AND 10000");
            table.HasCheckConstraint("posting_kind", "kind IN ('still', 'carbonated', 'sparkling', 'cider')");
        });
        posting.HasKey(row => new { row.Entry, row.Line });
        posting.Property(row => row.Entry).HasColumnName("entry");
        posting.Property(row => row.Line).HasColumnName("line");
        posting.Property(row => row.Deed).HasColumnName("deed");
        posting.Property(row => row.TakenBack).HasColumnName("taken_back");
        posting.Property(row => row.Category).HasColumnName("category");
        posting.Property(row => row.FromAccount).HasColumnName("from_account");
        posting.Property(row => row.ToAccount).HasColumnName("to_account");
        posting.Property(row => row.VolumeUl).HasColumnName("volume_ul");
        posting.Property(row => row.Bottles).HasColumnName("bottles");
        posting.Property(row => row.BottleUl).HasColumnName("bottle_ul");
        posting.Property(row => row.Grams).HasColumnName("grams");
        posting.Property(row => row.Material).HasColumnName("material");
        posting.Property(row => row.Unit).HasColumnName("unit");
        posting.Property(row => row.Strength).HasColumnName("strength");
        posting.Property(row => row.Kind).HasColumnName("kind");
    }

    private static void Contact(EntityTypeBuilder<ContactRow> contact)
    {
        contact.ToTable("contact", table =>
        {
            table.HasCheckConstraint("contact_id", "id > 0");
            table.HasCheckConstraint("contact_hash", "length(hash) = 32");
            table.HasCheckConstraint("contact_salt", "length(salt) = 16");
            table.HasCheckConstraint("contact_blanked", "(salt IS NULL) = (text IS NULL)");
        });
        contact.HasKey(row => row.Id);
        contact.Property(row => row.Id).HasColumnName("id").ValueGeneratedNever();
        contact.Property(row => row.Hash).HasColumnName("hash");
        contact.Property(row => row.Salt).HasColumnName("salt");
        contact.Property(row => row.Text).HasColumnName("text");
    }

    private static void HeadOfChain(EntityTypeBuilder<HeadRow> head)
    {
        head.ToTable("head", table =>
        {
            table.HasCheckConstraint("head_one_row", "id = 1");
            table.HasCheckConstraint("head_number", "number >= 0");
            table.HasCheckConstraint("head_hash", "length(hash) = 32");
        });
        head.HasKey(row => row.Id);
        head.Property(row => row.Id).HasColumnName("id").ValueGeneratedNever();
        head.Property(row => row.Number).HasColumnName("number");
        head.Property(row => row.Hash).HasColumnName("hash");
        head.HasData(new HeadRow { Id = 1, Number = 0, Hash = new byte[32] });
    }
}

/// <summary>Lets the migration tool make a context; the program never uses it.</summary>
public sealed class BookContextFactory : IDesignTimeDbContextFactory<BookContext>
{
    /// <inheritdoc/>
    public BookContext CreateDbContext(string[] args) => new(BookContext.OptionsFor("Data Source=:memory:"));
}
