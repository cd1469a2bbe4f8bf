using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>An entry of the outline that readers show beside the pages.</summary>
/// <param name="Title">What it says.</param>
/// <param name="Level">1 for the outermost; at most one more than that of the entry before.</param>
/// <param name="Destination">The named destination that it leads to.</param>
internal sealed record OutlineEntry(string Title, int Level, string Destination);

/// <summary>
/// Adds an outline and the language to a PDF that has none, by an incremental update (ISO 32000-1, 7.5.6 and 12.3.3): what was written stays as it is, new objects and a new version of the catalogue are
/// appended. It understands what SkiaSharp writes: a classic cross-reference table in one section, uncompressed objects.
/// </summary>
internal static partial class PdfOutline
{
    /// <summary>Appends the outline.</summary>
    /// <param name="pdf">The file; left at its end.</param>
    /// <param name="entries">The entries in the order of reading.</param>
    /// <param name="language">Of the document: "en".</param>
    /// <exception cref="InvalidDataException">The file is not as described above.</exception>
    public static void Append(Stream pdf, IReadOnlyList<OutlineEntry> entries, string language)
    {
        var tail = Read(pdf, Math.Max(0, pdf.Length - 1024), 1024);
        var start = Number(StartXref(), tail, "startxref");
        var xref = Read(pdf, start, (int)(pdf.Length - start));
        var size = (int)Number(Size(), xref, "/Size");
        var root = (int)Number(Root(), xref, "/Root");
        var catalogue = Read(pdf, Offset(xref, root), 65_536);
        var body = Catalogue().Match(catalogue) is { Success: true } found && found.Groups[1].Value == root.ToString(CultureInfo.InvariantCulture) ? found.Groups[2].Value : throw Unknown("catalogue");

        pdf.Seek(0, SeekOrigin.End);
        List<(int Number, long Offset)> written = [];
        Write(pdf, "\n");
        var added = body.Contains("/Lang", StringComparison.Ordinal) ? "" : $"\n/Lang ({language})";
        if (!body.Contains("/ViewerPreferences", StringComparison.Ordinal)) added += "\n/ViewerPreferences <</DisplayDocTitle true>>";
        if (entries.Count > 0) added += $"\n/Outlines {size} 0 R\n/PageMode /UseOutlines";
        Put(root, $"<<{body}{added}\n>>");
        var tree = Tree(entries);
        if (entries.Count > 0) Put(size, $"<</Type /Outlines\n/First {size + 1 + tree.First(n => n.Parent < 0).Index} 0 R\n/Last {size + 1 + tree.Last(n => n.Parent < 0).Index} 0 R\n/Count {tree.Count(n => n.Parent < 0)}\n>>");
        foreach (var node in tree) Put(size + 1 + node.Index, Entry(entries[node.Index], node, tree, size));

        var at = pdf.Position;
        // An entry of the table takes 20 bytes, its line end included.
        Write(pdf, "xref\n" + string.Concat(written.Select(w => string.Create(CultureInfo.InvariantCulture, $"{w.Number} 1\n{w.Offset:D10} 00000 n \n"))));
        var trailer = Trailer().Match(xref) is { Success: true } kept ? kept.Groups[1].Value : throw Unknown("trailer");
        Write(pdf, $"trailer\n<<{Size().Replace(trailer, string.Create(CultureInfo.InvariantCulture, $"/Size {size + (entries.Count > 0 ? 1 + entries.Count : 0)}"))}\n/Prev {start.ToString(CultureInfo.InvariantCulture)}\n>>\nstartxref\n{at.ToString(CultureInfo.InvariantCulture)}\n%%EOF\n");

        void Put(int number, string content)
        {
            written.Add((number, pdf.Position));
            Write(pdf, string.Create(CultureInfo.InvariantCulture, $"{number} 0 obj\n{content}\nendobj\n"));
        }
    }

    /// <summary>An entry's place: the entry above it, or -1.</summary>
    private sealed record Node(int Index, int Parent);

    private static List<Node> Tree(IReadOnlyList<OutlineEntry> entries)
    {
        List<Node> nodes = [];
        for (var i = 0; i < entries.Count; i++) nodes.Add(new Node(i, nodes.FindLastIndex(n => entries[n.Index].Level < entries[i].Level)));
        return nodes;
    }

    private static string Entry(OutlineEntry entry, Node node, List<Node> tree, int size)
    {
        var siblings = tree.Where(n => n.Parent == node.Parent).ToList();
        var (place, below) = (siblings.IndexOf(node), tree.Where(n => n.Parent == node.Index).ToList());
        var text = new StringBuilder($"<</Title {Text(entry.Title)}\n/Parent {Reference(node.Parent)}\n/Dest /{entry.Destination}");
        if (place > 0) text.Append(CultureInfo.InvariantCulture, $"\n/Prev {Reference(siblings[place - 1].Index)}");
        if (place < siblings.Count - 1) text.Append(CultureInfo.InvariantCulture, $"\n/Next {Reference(siblings[place + 1].Index)}");
        // Negative: its own entries are folded away at first.
        if (below.Count > 0) text.Append(CultureInfo.InvariantCulture, $"\n/First {Reference(below[0].Index)}\n/Last {Reference(below[^1].Index)}\n/Count {-below.Count}");
        return text.Append("\n>>").ToString();

        string Reference(int index) => string.Create(CultureInfo.InvariantCulture, $"{size + 1 + index} 0 R");
    }

    /// <summary>A text string as UTF-16 with its mark, in hexadecimal: no sign needs an escape.</summary>
    private static string Text(string text) => $"<FEFF{Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(text))}>";

    /// <summary>Where an object lies, by the table.</summary>
    private static long Offset(string xref, int number)
    {
        var head = Section().Match(xref);
        if (!head.Success || head.Groups[1].Value != "0") throw Unknown("cross-reference table");
        var line = head.Index + head.Length + 20 * number;
        return line + 10 <= xref.Length && long.TryParse(xref.AsSpan(line, 10), NumberStyles.None, CultureInfo.InvariantCulture, out var offset) ? offset : throw Unknown("cross-reference table");
    }

    private static long Number(Regex pattern, string text, string what) => pattern.Matches(text) is [.., var last] ? long.Parse(last.Groups[1].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture) : throw Unknown(what);

    private static InvalidDataException Unknown(string what) => new($"This PDF's {what} is not as SkiaSharp writes it.");

    /// <summary>Bytes as Latin-1, so that a letter is a byte.</summary>
    private static string Read(Stream pdf, long from, int count)
    {
        pdf.Seek(from, SeekOrigin.Begin);
        var bytes = new byte[Math.Min(count, Math.Max(0, pdf.Length - from))];
        pdf.ReadExactly(bytes);
        return Encoding.Latin1.GetString(bytes);
    }

    private static void Write(Stream pdf, string text) => pdf.Write(Encoding.Latin1.GetBytes(text));

    [GeneratedRegex(@"startxref\s+(\d+)\s+%%EOF")]
    private static partial Regex StartXref();

    [GeneratedRegex(@"/Size (\d+)")]
    private static partial Regex Size();

    [GeneratedRegex(@"/Root (\d+) 0 R")]
    private static partial Regex Root();

    [GeneratedRegex(@"^xref\s+(\d+) \d+\s*?\n")]
    private static partial Regex Section();

    [GeneratedRegex(@"trailer\s*<<(.*)>>\s*startxref", RegexOptions.Singleline)]
    private static partial Regex Trailer();

    [GeneratedRegex(@"\A(\d+) 0 obj\s*<<(.*?)>>\s*endobj", RegexOptions.Singleline)]
    private static partial Regex Catalogue();
}
