using System.IO.Compression;
using System.Text;
using Xunit;

namespace Cellarbook.Tests.Exports;

/// <summary>LibreOffice as a reader of our workbooks, made to work every formula out anew: by default it would believe the values we cached.</summary>
internal static class Office
{
    private const string Settings = """
        <?xml version="1.0" encoding="UTF-8"?><oor:items xmlns:oor="http://openoffice.org/2001/registry"><item oor:path="/org.openoffice.Office.Calc/Formula/Load">
        <prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item></oor:items>
        """;

    /// <summary>Every sheet as rows of cells, as the office program works them out; figures in full, not as shown.</summary>
    public static Dictionary<string, List<List<string>>> Read(byte[] workbook)
    {
        using var folder = new ScratchFolder();
        Directory.CreateDirectory(folder.File("profile/user"));
        File.WriteAllText(folder.File("profile/user/registrymodifications.xcu"), Settings);
        File.WriteAllBytes(folder.File("book.xlsx"), workbook);
        // Comma, double quote, UTF-8, from row 1, no figures as shown, no formulas, every sheet to a file of its own.
        var answer = Processes.Run("soffice", "libreoffice-calc", TimeSpan.FromMinutes(3), "--headless", "--norestore", $"-env:UserInstallation=file://{folder.File("profile")}",
            "--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1", "--outdir", folder.Path, folder.File("book.xlsx"));
        var sheets = Directory.GetFiles(folder.Path, "book-*.csv").ToDictionary(path => Path.GetFileNameWithoutExtension(path)["book-".Length..], path => CsvText.Records(File.ReadAllText(path)));
        Assert.True(sheets.Count > 0, $"LibreOffice wrote nothing: {answer.Output} {answer.Errors}");
        return sheets;
    }

    /// <summary>The same workbook with the text of one part changed.</summary>
    public static byte[] Spoil(byte[] workbook, string part, Func<string, string> change)
    {
        using var stream = new MemoryStream();
        stream.Write(workbook);
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Update, leaveOpen: true))
        {
            var entry = zip.GetEntry(part)!;
            string text;
            using (var reader = new StreamReader(entry.Open(), Encoding.UTF8)) text = reader.ReadToEnd();
            var changed = change(text);
            Assert.NotEqual(text, changed);
            entry.Delete();
            using var writer = new StreamWriter(zip.CreateEntry(part).Open(), new UTF8Encoding(false));
            writer.Write(changed);
        }
        return stream.ToArray();
    }
}
