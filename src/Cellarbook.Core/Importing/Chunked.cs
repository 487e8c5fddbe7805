namespace Cellarbook.Core.Importing;

/// <summary>A list that grows by pieces and copies nothing, so that a million rows take their own room and no more.</summary>
internal sealed class Chunked<T>
    where T : struct
{
    // Of a size that the garbage collector still moves together.
    private const int Size = 512;

    private readonly List<T[]> chunks = [];

    public int Count { get; private set; }

    public ref readonly T this[int index] => ref chunks[index / Size][index % Size];

    public void Add(T item)
    {
        if (Count % Size == 0) chunks.Add(new T[Size]);
        chunks[^1][Count++ % Size] = item;
    }
}
