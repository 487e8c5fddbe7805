using Cellarbook.Core.Chemistry;

namespace Cellarbook.Core.LotFigures;

/// <summary>An entry that a derived figure rests on.</summary>
/// <param name="Entry">Number of the entry.</param>
/// <param name="Day">Its day.</param>
/// <param name="What">What it brought, in words.</param>
public sealed record FigureReading(long Entry, DateOnly Day, Sentence What);

/// <summary>A derived figure of the wine in a place: the number with its formula, and the entries behind it (law 8).</summary>
/// <param name="Result">The number, its formula, its worked line.</param>
/// <param name="Readings">The entries, in book order.</param>
public sealed record LotFigure(Explained Result, IReadOnlyList<FigureReading> Readings);
