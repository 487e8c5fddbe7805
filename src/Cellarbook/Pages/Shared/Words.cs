namespace Cellarbook.Pages.Shared;

/// <summary>Sentences that pages say, in one place, so that each is said one way (and can be said in another language).</summary>
public static partial class Words
{
    /// <summary>Of wine without a stated strength.</summary>
    public const string StrengthNotStated = "strength not stated";

    /// <summary>At the foot of every page.</summary>
    public const string Help = "A help for the person in charge: the law and a qualified person decide.";
}
