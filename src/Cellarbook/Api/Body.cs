namespace Cellarbook.Api;

/// <summary>Reads what was sent, never more than it may be.</summary>
internal static class Body
{
    /// <summary>All of it; null when it is larger than so many bytes.</summary>
    public static async Task<byte[]?> Read(HttpRequest request, long most)
    {
        if (request.ContentLength > most) return null;
        using var bytes = new MemoryStream();
        var buffer = new byte[8192];
        int n;
        while ((n = await request.Body.ReadAsync(buffer, request.HttpContext.RequestAborted)) > 0)
        {
            if (bytes.Length + n > most) return null;
            bytes.Write(buffer, 0, n);
        }
        return bytes.ToArray();
    }
}
