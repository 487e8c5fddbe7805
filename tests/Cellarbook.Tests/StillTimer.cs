namespace Cellarbook.Tests;

/// <summary>A timer that never rings by itself: the clock under test rings it.</summary>
internal sealed class StillTimer : ITimer
{
    public bool Change(TimeSpan dueTime, TimeSpan period) => true;

    public void Dispose()
    {
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
