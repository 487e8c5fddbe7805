namespace Cellarbook.Core.Book;

/// <summary>
/// Every reason to refuse, in order of precedence: one bad input has exactly one first answer. The codes of the API are these names in
/// snake_case; api-docs/refusals.md lists them with sentence and remedy.
/// </summary>
public enum RefusalCode
{
    /// <summary>The body can't be read as JSON or CSV at all.</summary>
    Unreadable,
    /// <summary>Too large or too deeply nested.</summary>
    TooLarge,
    /// <summary>A column of the file is not known.</summary>
    UnknownColumn,
    /// <summary>A column that the rows need is missing.</summary>
    MissingColumn,
    /// <summary>A file without rows.</summary>
    Empty,
    /// <summary>The operation's kind is not known.</summary>
    UnknownKind,
    /// <summary>A field is not known.</summary>
    UnknownField,
    /// <summary>A word is not one of those allowed.</summary>
    UnknownWord,
    /// <summary>A category is not known.</summary>
    UnknownCategory,
    /// <summary>A needed field is missing.</summary>
    Missing,
    /// <summary>A code has characters that names of lots, vessels and bottlings can't have, or is too long.</summary>
    BadName,
    /// <summary>Not a number.</summary>
    NotANumber,
    /// <summary>Finer than the smallest unit.</summary>
    TooFine,
    /// <summary>More than the book can count.</summary>
    TooLargeNumber,
    /// <summary>Nil or below.</summary>
    NotPositive,
    /// <summary>Not a day, or no such day.</summary>
    NoSuchDay,
    /// <summary>A day to come.</summary>
    DayToCome,
    /// <summary>Entered before it happened.</summary>
    EnteredBeforeItHappened,
    /// <summary>The day lies in a closed period.</summary>
    PeriodClosed,
    /// <summary>Stock brought forward on another day than the book's first.</summary>
    OpeningNotFirst,
    /// <summary>Count × size is not the volume.</summary>
    CountAndVolumeDisagree,
    /// <summary>The direction isn't the category's.</summary>
    WrongDirection,
    /// <summary>The accounts or sections aren't the category's.</summary>
    WrongAccount,
    /// <summary>No such vessel.</summary>
    UnknownVessel,
    /// <summary>No such lot.</summary>
    UnknownLot,
    /// <summary>No such bottling.</summary>
    UnknownBottling,
    /// <summary>No such material.</summary>
    UnknownMaterial,
    /// <summary>No such delivery of that material.</summary>
    UnknownDelivery,
    /// <summary>Not the unit the material is counted in.</summary>
    WrongUnit,
    /// <summary>A material that doesn't go into wine: for cleaning, for packing, or a kit's box.</summary>
    NotForWine,
    /// <summary>No such entry or event.</summary>
    UnknownEntry,
    /// <summary>No such contact, or its text is gone.</summary>
    UnknownContact,
    /// <summary>The lot lies in several places and none was named.</summary>
    SeveralPlaces,
    /// <summary>Wine into must: declare first.</summary>
    WineIntoMust,
    /// <summary>Must into bottles, or into wine: declare first.</summary>
    MustIntoWine,
    /// <summary>Wines of different kinds meet outside a process with no kind stated.</summary>
    KindsMeet,
    /// <summary>The class told isn't the class worked out.</summary>
    ClassDisagrees,
    /// <summary>Sources are not targets plus losses.</summary>
    DoesNotAddUp,
    /// <summary>A process is not nil at the end of its entry.</summary>
    ProcessNotCleared,
    /// <summary>The bottling exists with another size.</summary>
    OtherBottleSize,
    /// <summary>More than is there.</summary>
    MoreThanIsThere,
    /// <summary>Nothing lies there that something could be added to.</summary>
    NothingThere,
    /// <summary>More than the vessel holds.</summary>
    OverCapacity,
    /// <summary>The vessel holds another lot, or the other of must and wine.</summary>
    VesselHoldsAnother,
    /// <summary>Later entries would no longer be possible.</summary>
    LaterEntriesNeedIt,
    /// <summary>Already taken back.</summary>
    AlreadyTakenBack,
    /// <summary>This entry can't be taken back.</summary>
    CantBeTakenBack,
    /// <summary>The take-back doesn't mirror the event whole.</summary>
    TakeBackNotWhole,
    /// <summary>The material exists already.</summary>
    MaterialExists,
    /// <summary>The material has a delivery of that name already.</summary>
    DeliveryExists,
    /// <summary>The vessel exists already.</summary>
    VesselExists,
    /// <summary>A capacity lower than was ever held.</summary>
    CapacityBelowHeld,
    /// <summary>The key was used with another meaning.</summary>
    KeyUsed,
    /// <summary>The event id was used with other content.</summary>
    EventDiffers,
    /// <summary>A limit set with rows that can't be read, cite nothing, overlap or leave a gap: refused whole.</summary>
    LimitsUnreadable,
    /// <summary>A limit set that has expired already.</summary>
    LimitsExpired,
    /// <summary>It makes an excess over a limit, and no reason was given.</summary>
    ReasonNeeded,
    /// <summary>The disk is full; nothing was recorded.</summary>
    DiskFull,
    /// <summary>The book is read-only.</summary>
    ReadOnly,
}
