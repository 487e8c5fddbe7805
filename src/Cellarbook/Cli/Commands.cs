using System.CommandLine;
using Cellarbook.Accounts;
using Cellarbook.Hosting;
using Cellarbook.Imports;
using Cellarbook.Recording;
using Cellarbook.Storage;

namespace Cellarbook.Cli;

/// <summary>The command line: serve (default), password, import, backup, restore, verify, demo.</summary>
public static class Commands
{
    /// <summary>Runs what the arguments say; returns the exit code.</summary>
    public static async Task<int> Run(string[] args)
    {
        // A build that only wants the API's description must not open anybody's book.
        if (System.Reflection.Assembly.GetEntryAssembly()?.GetName().Name == "GetDocument.Insider")
        {
            await Site.Build(args, _ => throw new InvalidOperationException("No book is open while the API describes itself."), null).RunAsync();
            return 0;
        }
        var demo = new Option<bool>("--demo") { Description = "Open the demonstration book in a throw-away folder." };
        var root = new RootCommand("Cellarbook: the book of a small cellar, from must to bottle.") { demo };
        // What isn't known here is the web server's: --urls and the like.
        root.TreatUnmatchedTokensAsErrors = false;
        root.SetAction((parsed, cancel) => Serving.Run([.. parsed.UnmatchedTokens], parsed.GetValue(demo), cancel));

        var serve = new Command("serve", "Serve the book (what happens without a command).") { demo };
        serve.TreatUnmatchedTokensAsErrors = false;
        serve.SetAction((parsed, cancel) => Serving.Run([.. parsed.UnmatchedTokens], parsed.GetValue(demo), cancel));

        var demoCommand = new Command("demo", "Serve the demonstration book.");
        demoCommand.TreatUnmatchedTokensAsErrors = false;
        demoCommand.SetAction((parsed, cancel) => Serving.Run([.. parsed.UnmatchedTokens], demo: true, cancel));

        var file = new Argument<FileInfo>("file");
        var import = new Command("import", "Import a journal of volumes (CSV), all or nothing. Refused while a server runs.") { file };
        import.SetAction(parsed => Safely(() => Import(parsed.GetValue(file)!)));
        var backup = new Command("backup", "Write a backup of the book to a file, and verify it. Works beside a running server.") { file };
        backup.SetAction(parsed => Safely(() => Backup(parsed.GetValue(file)!)));
        var restore = new Command("restore", "Put a backup in the book's place; the old book is kept beside it. Refused while a server runs.") { file };
        restore.SetAction(parsed => Safely(() => Restore(parsed.GetValue(file)!)));
        var verify = new Command("verify", "Read everything again and say what was checked and found. Works beside a running server.");
        verify.SetAction(_ => Safely(Verify));
        var contact = new Argument<int>("contact") { Description = "The contact's number, as the list at /api/v1/book/contacts shows it." };
        var why = new Option<string>("--reason") { Description = "Why, for the entry that says so." };
        var blank = new Command("blank-contact", "Blank the name of somebody in the book; its seal holds. Refused while a server runs. Backups made before keep the name.") { contact, why };
        blank.SetAction(parsed => Safely(() => BlankContact(parsed.GetValue(contact), parsed.GetValue(why))));
        var password = new Command("password", "Give the owner a password, read from standard input. From then on everybody signs in, and the program may listen on other addresses.");
        password.SetAction(_ => Safely(Password));
        foreach (var command in new[] { password, serve, demoCommand, import, backup, restore, verify, blank }) root.Subcommands.Add(command);
        return await root.Parse(args).InvokeAsync();
    }

    private static int Import(FileInfo file)
    {
        using var going = new Going(Console.Error);
        using var store = BookStore.Open(DataFolder.Find());
        using var book = new OpenBook(store, TimeProvider.System, going.Counting("entries of the book read", store.Head().Number));
        using var stream = file.OpenRead();
        var result = book.Import(today =>
        {
            var read = JournalUpload.Read(stream, today, going.Counting("rows read", () => $"{100 * stream.Position / Math.Max(1, stream.Length)} % of the file"));
            going.Now("working through the entries and checking the laws");
            return read;
        }, book.Read(found => found.Premises?.Owner) ?? Environment.UserName, check: false, going.Counting("entries written"));
        going.Done();
        foreach (var refusal in result.Refusals) Console.Error.WriteLine($"{(refusal.Row is { } row ? $"row {row}, " : "")}{Api.Problem.CodeOf(refusal.Code)}: {refusal.Sentence}");
        if (result.Refusals.Count > 0)
        {
            Console.Error.WriteLine("Nothing was recorded.");
            return 1;
        }
        Console.WriteLine($"{result.Entries} entries recorded, {result.Skipped} events known already.");
        return 0;
    }

    private static int Backup(FileInfo file)
    {
        using var store = BookStore.Open(DataFolder.Find(), readOnly: true);
        using var going = new Going(Console.Error);
        going.Now("copying the book");
        store.Backup(file.FullName, going.Counting("entries of the copy checked", store.Head().Number));
        going.Done();
        Console.WriteLine($"The book was written to {file.FullName} and verified.");
        return 0;
    }

    private static int Restore(FileInfo file)
    {
        using var going = new Going(Console.Error);
        going.Now("copying the backup");
        var kept = BookStore.Restore(file.FullName, DataFolder.Find(), going.Counting("entries of the backup checked"));
        going.Done();
        Console.WriteLine(kept is null ? "The backup is the book now." : $"The backup is the book now. The book that was there is kept as {kept}.");
        return 0;
    }

    private static int Verify()
    {
        using var going = new Going(Console.Error);
        going.Now("checking the pages of the file");
        var report = BookStore.Verify(Path.Combine(DataFolder.Find(), "book.db"), going.Counting("entries read, hashed and folded"));
        going.Done();
        foreach (var (what, count) in report.Checked) Console.WriteLine($"{count,12:N0}  {what}");
        foreach (var finding in report.Findings) Console.WriteLine($"found: {finding}");
        Console.WriteLine(report.Sound ? "The book is sound." : "The book is NOT sound.");
        return report.Sound ? 0 : 1;
    }

    private static int BlankContact(int contact, string? reason)
    {
        using var book = new OpenBook(BookStore.Open(DataFolder.Find()), TimeProvider.System);
        var recorded = book.Record(new Core.Operations.BlankContact { Day = book.Today, Contact = contact, Reason = reason }, book.Read(found => found.Premises?.Owner) ?? Environment.UserName);
        foreach (var refusal in recorded.Refusals) Console.Error.WriteLine($"{Api.Problem.CodeOf(refusal.Code)}: {refusal.Sentence}");
        if (recorded.Refusals.Count > 0) return 1;
        Console.WriteLine($"The name of contact {contact} is gone; entry {recorded.Number} says so. Backups made before still hold it, and so do notes and documents that spell it out.");
        return 0;
    }

    private static int Password()
    {
        var folder = DataFolder.Find();
        string? owner = null;
        if (File.Exists(Path.Combine(folder, "book.db")))
        {
            using var store = BookStore.Open(folder, readOnly: true);
            using var book = new OpenBook(store, TimeProvider.System);
            owner = book.Read(found => found.Premises?.Owner);
        }
        if (!Console.IsInputRedirected) Console.Error.Write("New password: ");
        var accounts = new AccountsFile(folder);
        var name = accounts.People.FirstOrDefault(person => person.Role == Role.Owner)?.Name ?? owner ?? "owner";
        if (accounts.SetPassword(name, Role.Owner, Typed()) is { } fault)
        {
            Console.Error.WriteLine(fault);
            return 1;
        }
        Console.WriteLine($"{name} signs in with this password from now on. Sign-ins with an older one have ended.");
        return 0;
    }

    /// <summary>A line from standard input; typed by hand, it isn't shown.</summary>
    private static string? Typed()
    {
        if (Console.IsInputRedirected) return Console.ReadLine();
        var text = new System.Text.StringBuilder();
        while (Console.ReadKey(intercept: true) is var key && key.Key != ConsoleKey.Enter)
        {
            if (key.Key == ConsoleKey.Backspace) text.Length = Math.Max(0, text.Length - 1);
            else if (key.KeyChar >= ' ') text.Append(key.KeyChar);
        }
        Console.Error.WriteLine();
        return text.ToString();
    }

    private static int Safely(Func<int> command)
    {
        try
        {
            return command();
        }
        catch (BookOpenException fault)
        {
            Console.Error.WriteLine(fault.Message);
            return 1;
        }
        catch (BookWriteException fault)
        {
            Console.Error.WriteLine(fault.Message);
            return 1;
        }
        catch (IOException fault)
        {
            Console.Error.WriteLine(fault.Message);
            return 1;
        }
        catch (UnauthorizedAccessException fault)
        {
            Console.Error.WriteLine(fault.Message);
            return 1;
        }
    }
}
