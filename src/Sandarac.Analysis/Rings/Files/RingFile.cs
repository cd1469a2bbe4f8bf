using System.Text;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Rings.Files;

/// <summary>Reads and writes files of ring widths: the Tucson decadal format (.rwl) and plain tables (.csv).</summary>
public static class RingFile
{
    /// <summary>Largest file in bytes; the largest public collections are a hundredth of it.</summary>
    public const int LargestBytes = 32 << 20;

    /// <summary>Most series and rings of a file, unmeasured ones included; the largest public collections are a tenth of it.</summary>
    internal const int MostSeries = 20_000, MostRings = 10_000_000;

    /// <summary>Most years a series may span, and the years it may lie in.</summary>
    internal const int EarliestYear = -15000, LatestYear = 2200;

    /// <summary>Reads a file by its suffix: .csv and .txt with commas or semicolons as a table, everything else as Tucson.</summary>
    /// <exception cref="InputProblem">Missing, too large, empty, not such a file, damaged; with the number of the line.</exception>
    public static IReadOnlyList<RingWidths> Read(string path)
    {
        var name = Path.GetFileName(path);
        try
        {
            using var stream = File.OpenRead(path);
            return Parse(name, stream);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new InputProblem("file-not-read", name, $"{name} cannot be read.", "Name a file that exists and that you may read.", e);
        }
    }

    /// <summary>Reads a file's content.</summary>
    /// <param name="name">The file's name, which also tells its kind.</param>
    /// <param name="content">Its bytes; text in UTF-8 or in a code that shares ASCII.</param>
    /// <exception cref="InputProblem">As <see cref="Read"/>.</exception>
    public static IReadOnlyList<RingWidths> Parse(string name, Stream content)
    {
        var bytes = new MemoryStream();
        var buffer = new byte[1 << 16];
        for (int n; (n = content.Read(buffer)) > 0;)
        {
            bytes.Write(buffer, 0, n);
            if (bytes.Length > LargestBytes)
                throw new InputProblem("rings-too-large", name, $"{name} is larger than {LargestBytes >> 20} MB, more than ring widths need.", "Check that it is the file you mean; divide a large collection by site.");
        }
        var text = Encoding.UTF8.GetString(bytes.GetBuffer(), 0, (int)bytes.Length).TrimStart('\uFEFF');
        if (text.Contains('\0', StringComparison.Ordinal)) throw new InputProblem("rings-not-text", name, $"{name} is not a text file.", "Give ring widths as .rwl (Tucson decadal) or .csv.");
        if (string.IsNullOrWhiteSpace(text)) throw new InputProblem("rings-empty", name, $"{name} is empty.", "Copy the file again.");
        return name.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) ? RingTable.Parse(name, text) : TucsonFile.Parse(name, text);
    }

    /// <summary>Refuses more than a collection of ring widths holds.</summary>
    internal static void CheckSize(string name, int series, long rings)
    {
        if (series > MostSeries || rings > MostRings) throw new InputProblem("rings-too-large", name, $"{name} holds more than {MostSeries} series or {MostRings} rings.", "Divide the collection by site.");
    }

    /// <summary>Refuses years that no tree-ring series has.</summary>
    internal static void CheckYears(string name, int line, string id, long first, long count)
    {
        if (first < EarliestYear || first + count - 1 > LatestYear)
            throw Problem("rings-years", name, line, $"{id} lies outside the years {EarliestYear} to {LatestYear}", "Check the columns of its year.");
    }

    internal static InputProblem Problem(string code, string name, int line, string what, string remedy) =>
        new(code, name, FormattableString.Invariant($"Line {line} of {name}: {what}."), remedy);
}
