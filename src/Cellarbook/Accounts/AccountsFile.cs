using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Identity;

namespace Cellarbook.Accounts;

/// <summary>What somebody may do.</summary>
public enum Role
{
    /// <summary>Looks, and changes nothing.</summary>
    Reader,
    /// <summary>Records what is done in the cellar.</summary>
    Hand,
    /// <summary>Everything: settings, imports, backups, people.</summary>
    Owner,
}

/// <summary>Somebody who can sign in.</summary>
/// <param name="Name">Stands beside what they record.</param>
/// <param name="Role">What they may do.</param>
/// <param name="Hash">Of the password, by the framework's hasher.</param>
/// <param name="Stamp">Changes with the password, so that older sign-ins end.</param>
public sealed record Person(string Name, Role Role, string Hash, string Stamp);

/// <summary>A key for a script.</summary>
/// <param name="Name">What it is for; stands beside what the script records.</param>
/// <param name="Role">What it may do.</param>
/// <param name="Hash">SHA-256 of the token, in hexadecimal. The token is 256 random bits, so that a slow hash would add nothing.</param>
/// <param name="Made">The day it was made.</param>
public sealed record Token(string Name, Role Role, string Hash, DateOnly Made);

/// <summary>Who can sign in, and the keys of scripts: accounts.json beside the book, never in it. A file that can't be read lets nobody in.</summary>
/// <param name="folder">The book's folder.</param>
public sealed class AccountsFile(string folder)
{
    /// <summary>The fewest characters of a password.</summary>
    public const int Shortest = 10;

    /// <summary>The most characters of a password, and of a name.</summary>
    public const int Longest = 200;

    private static readonly JsonSerializerOptions Form = new() { WriteIndented = true, PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) } };
    private static readonly PasswordHasher<string> Hasher = new();
    private static readonly string Nobody = Hasher.HashPassword("", Guid.NewGuid().ToString());

    private readonly Lock gate = new();
    private (DateTime Written, long Length, Content Content)? kept;

    private sealed record Content(IReadOnlyList<Person> People, IReadOnlyList<Token> Tokens);

    /// <summary>Where it lies.</summary>
    public string Path => System.IO.Path.Combine(folder, "accounts.json");

    /// <summary>True once the owner has a password: from then on everybody signs in.</summary>
    public bool HasOwner => Read().People.Any(person => person.Role == Role.Owner);

    /// <summary>Everybody who can sign in, the owner first.</summary>
    public IReadOnlyList<Person> People => [.. Read().People.OrderByDescending(person => person.Role).ThenBy(person => person.Name, StringComparer.Ordinal)];

    /// <summary>The keys of scripts.</summary>
    public IReadOnlyList<Token> Tokens => Read().Tokens;

    /// <summary>Whoever has that name and password; null for nobody, after the same time.</summary>
    public Person? Check(string? name, string? password)
    {
        var people = Read().People;
        var person = string.IsNullOrWhiteSpace(name) && people.Count == 1 ? people[0] : people.FirstOrDefault(person => string.Equals(person.Name, name?.Trim(), StringComparison.OrdinalIgnoreCase));
        var right = Hasher.VerifyHashedPassword("", person?.Hash ?? Nobody, password ?? "") != PasswordVerificationResult.Failed;
        return right ? person : null;
    }

    /// <summary>The key a script came with; null for one that isn't known.</summary>
    public Token? CheckToken(string token)
    {
        var hash = Encoding.ASCII.GetBytes(HashOf(token));
        return Read().Tokens.FirstOrDefault(known => CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(known.Hash), hash));
    }

    /// <summary>True while that person has that stamp.</summary>
    public bool Holds(string? name, string? stamp) => Read().People.Any(person => person.Name == name && person.Stamp == stamp);

    /// <summary>Gives somebody a password, or another one.</summary>
    /// <returns>What is the matter; null when it was kept.</returns>
    public Sentence? SetPassword(string? name, Role role, string? password)
    {
        if (string.IsNullOrWhiteSpace(name) || name.Trim().Length > Longest) return "Give a name of at most 200 characters.";
        if (password is null || password.Length < Shortest) return $"A password has at least {Shortest} characters; several words are easy to keep in mind.";
        if (password.Length > Longest) return $"A password has at most {Longest} characters.";
        Change(content =>
        {
            // There is one owner, whatever the name.
            var others = content.People.Where(person => role == Role.Owner ? person.Role != Role.Owner : !string.Equals(person.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));
            return content with { People = [.. others, new Person(name.Trim(), role, Hasher.HashPassword("", password), Random(16))] };
        });
        return null;
    }

    /// <summary>Takes somebody out; the owner stays.</summary>
    public void Remove(string name) => Change(content => content with { People = [.. content.People.Where(person => person.Role == Role.Owner || person.Name != name)] });

    /// <summary>Makes a key for a script. It is told once, and only its hash is kept.</summary>
    public string MakeToken(string name, Role role, DateOnly day)
    {
        var token = "cb_" + Random(32);
        Change(content => content with { Tokens = [.. content.Tokens.Where(known => known.Name != name), new Token(name, role, HashOf(token), day)] });
        return token;
    }

    /// <summary>Ends a key.</summary>
    public void RemoveToken(string name) => Change(content => content with { Tokens = [.. content.Tokens.Where(known => known.Name != name)] });

    private static string HashOf(string token) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(token)));

    private static string Random(int bytes) => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(bytes));

    /// <summary>The file as it stands; the command line may have changed it meanwhile.</summary>
    private Content Read()
    {
        lock (gate)
        {
            var file = new FileInfo(Path);
            if (!file.Exists) return new([], []);
            if (kept is { } known && known.Written == file.LastWriteTimeUtc && known.Length == file.Length) return known.Content;
            var content = JsonSerializer.Deserialize<Content>(File.ReadAllText(Path), Form) ?? throw new InvalidDataException($"{Path} says nothing.");
            kept = (file.LastWriteTimeUtc, file.Length, content);
            return content;
        }
    }

    /// <summary>Writes another one, whole or not at all, for nobody but this user to read.</summary>
    private void Change(Func<Content, Content> change)
    {
        lock (gate)
        {
            var next = change(Read());
            Directory.CreateDirectory(folder);
            var aside = Path + ".new";
            var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            using (var stream = new FileStream(aside, options)) JsonSerializer.Serialize(stream, next, Form);
            File.Move(aside, Path, overwrite: true);
            kept = null;
        }
    }
}
