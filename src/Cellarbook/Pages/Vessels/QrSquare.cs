using System.Globalization;
using System.Text;
using QRCoder;

namespace Cellarbook.Pages.Vessels;

/// <summary>A QR code as one drawn path: dark squares row by row, with the quiet edge that scanners need.</summary>
/// <param name="Side">Squares along a side, quiet edge included.</param>
/// <param name="Path">The path, one unit a square.</param>
public sealed record QrSquare(int Side, string Path)
{
    /// <summary>The code of a text, with a quarter of it readable when smudged.</summary>
    public static QrSquare Of(string text)
    {
        using var data = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.Q);
        var path = new StringBuilder();
        for (var y = 0; y < data.ModuleMatrix.Count; y++)
        {
            var row = data.ModuleMatrix[y];
            for (var x = 0; x < row.Count; x++)
            {
                if (!row[x]) continue;
                var start = x;
                while (x + 1 < row.Count && row[x + 1]) x++;
                path.Append(CultureInfo.InvariantCulture, $"M{start} {y}h{x - start + 1}v1h-{x - start + 1}z");
            }
        }
        return new(data.ModuleMatrix.Count, path.ToString());
    }
}
