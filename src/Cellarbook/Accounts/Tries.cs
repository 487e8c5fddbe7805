using System.Threading.RateLimiting;

namespace Cellarbook.Accounts;

/// <summary>Tries at a password: five a minute from one place, sixty from all together.</summary>
public sealed class Tries : IDisposable
{
    private readonly PartitionedRateLimiter<string> limiter = PartitionedRateLimiter.CreateChained(
        PartitionedRateLimiter.Create<string, string>(place => RateLimitPartition.GetFixedWindowLimiter(place, _ => new() { PermitLimit = 5, Window = TimeSpan.FromMinutes(1) })),
        PartitionedRateLimiter.Create<string, string>(_ => RateLimitPartition.GetFixedWindowLimiter("", _ => new() { PermitLimit = 60, Window = TimeSpan.FromMinutes(1) })));

    /// <summary>Takes one try; false when there were too many.</summary>
    public bool Take(HttpContext context)
    {
        using var lease = limiter.AttemptAcquire(context.Connection.RemoteIpAddress?.ToString() ?? "");
        return lease.IsAcquired;
    }

    /// <inheritdoc/>
    public void Dispose() => limiter.Dispose();
}
