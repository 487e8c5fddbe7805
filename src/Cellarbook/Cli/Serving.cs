using Cellarbook.Accounts;
using Cellarbook.Hosting;
using Cellarbook.Recording;
using Cellarbook.Storage;

namespace Cellarbook.Cli;

/// <summary>Serves a book until stopped.</summary>
internal static class Serving
{
    public static async Task<int> Run(string[] args, bool demo, CancellationToken cancel)
    {
        var folder = demo ? DataFolder.ThrowAway() : DataFolder.Find();
        try
        {
            using var book = new OpenBook(BookStore.Open(folder), demo ? DemoBook.Clock : TimeProvider.System);
            if (demo) DemoBook.Fill(book);
            await using var app = Site.Build(args, _ => book, folder);
            var addresses = Listening.Of(app.Configuration, Site.Address);
            if (Listening.Refusal(addresses, app.Services.GetRequiredService<AccountsFile>().HasOwner) is { } refusal)
            {
                Console.Error.WriteLine(refusal);
                return 1;
            }
            await app.StartAsync(cancel);
            Console.WriteLine($"The book lies in {folder}{(demo ? " (demonstration, thrown away at the end)" : "")}.");
            Console.WriteLine($"Open {string.Join(" or ", app.Urls)} in a browser. Stop with Ctrl+C.");
            if (!book.IsSound)
                foreach (var finding in book.Findings) Console.Error.WriteLine($"The book is not sound and opens read-only: {finding.Sentence}");
            await app.WaitForShutdownAsync(cancel);
            return 0;
        }
        catch (BookOpenException fault)
        {
            Console.Error.WriteLine(fault.Message);
            return 1;
        }
        catch (IOException fault)
        {
            Console.Error.WriteLine($"The program can't start: {fault.Message}");
            return 1;
        }
        finally
        {
            if (demo) Directory.Delete(folder, recursive: true);
        }
    }
}
