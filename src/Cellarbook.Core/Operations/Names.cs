namespace Cellarbook.Core.Operations;

/// <summary>What a code of a lot, vessel, bottling or shelf may look like.</summary>
public static class Names
{
    /// <summary>The longest code.</summary>
    public const int Longest = 40;

    /// <summary>
    /// Letters and digits of any script, - _ . / + # and single blanks inside; so that a code can stand in an account name, a file and an address.
    /// </summary>
    public static bool IsGood(string name)
    {
        if (name.Length is 0 or > Longest || !char.IsLetterOrDigit(name[0]) || name[^1] == ' ') return false;
        for (var i = 0; i < name.Length; i++)
        {
            var c = name[i];
            if (char.IsLetterOrDigit(c) || c is '-' or '_' or '.' or '/' or '+' or '#') continue;
            if (c != ' ' || name[i - 1] == ' ') return false;
        }
        return true;
    }

    /// <summary>A typed name made fit to be quoted back: cut to length, without control characters.</summary>
    public static string Shown(string name) =>
        new([.. name.Take(Longest).Select(c => char.IsControl(c) ? '·' : c)]);
}
