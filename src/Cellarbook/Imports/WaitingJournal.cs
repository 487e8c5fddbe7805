using System.Security.Cryptography;
using Cellarbook.Recording;

namespace Cellarbook.Imports;

/// <summary>What is being done with a journal file.</summary>
public enum JournalStage
{
    /// <summary>Its rows are read.</summary>
    Reading,

    /// <summary>Its entries are worked out and held against the laws.</summary>
    WorkingOut,

    /// <summary>They are written in the book.</summary>
    Writing,
}

/// <summary>A journal file that somebody sent from a page: it waits to be looked at and written, and says what became of it.</summary>
public sealed class WaitingJournal
{
    /// <param name="name">What it is called on the sender's machine.</param>
    /// <param name="file">The file, set aside.</param>
    /// <param name="person">Who signed in and sent it; empty where nobody signs in.</param>
    /// <param name="actor">Who writes it.</param>
    internal WaitingJournal(string name, Aside file, string person, string actor)
    {
        (Name, File, Person, Actor) = (name, file, person, actor);
        Id = RandomNumberGenerator.GetHexString(32, lowercase: true);
    }

    /// <summary>Its address: a word that nobody can guess.</summary>
    public string Id { get; }

    /// <summary>What it is called on the sender's machine.</summary>
    public string Name { get; }

    /// <summary>What is being done with it.</summary>
    public JournalStage Stage { get; internal set; }

    /// <summary>How far that is.</summary>
    public Work Work { get; internal set; } = new();

    /// <summary>What writing it would do, or why it can't be written; null until it was looked at.</summary>
    public ImportResult? Looked { get; internal set; }

    /// <summary>True when the book went on between looking and writing, so that it had to be looked at again.</summary>
    public bool IsOvertaken { get; internal set; }

    /// <summary>What was written; null until it was.</summary>
    public ImportResult? Written { get; internal set; }

    /// <summary>True once somebody pressed for it to be written.</summary>
    internal bool IsToBeWritten { get; set; }

    internal Aside File { get; }

    internal string Person { get; }

    internal string Actor { get; }
}
