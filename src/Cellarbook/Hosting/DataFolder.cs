namespace Cellarbook.Hosting;

/// <summary>Where the book lies.</summary>
public static class DataFolder
{
    /// <summary>The variable that names the folder.</summary>
    public const string Variable = "CELLARBOOK_DATA";

    /// <summary>The folder named by the variable, else one in the user's own data directory.</summary>
    public static string Find()
    {
        if (Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } named) return Path.GetFullPath(named);
        var own = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return Path.Combine(own.Length > 0 ? own : Path.Combine(Path.GetTempPath(), "cellarbook-" + Environment.UserName), "cellarbook");
    }

    /// <summary>A fresh folder that is thrown away afterwards.</summary>
    public static string ThrowAway() => Directory.CreateTempSubdirectory("cellarbook-demo-").FullName;
}
