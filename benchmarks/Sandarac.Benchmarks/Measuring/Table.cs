namespace Sandarac.Benchmarks.Measuring;

/// <summary>Prints figures as one table.</summary>
internal static class Table
{
    public static void Print(IReadOnlyList<Figure> figures)
    {
        var lines = new List<string[]> { new[] { "figure", "unit", "ours", "peer", "ratio", "limit", "" } };
        lines.AddRange(figures.Select(f => new[]
        {
            f.What, f.Unit, Figure.Show(f.Ours), Figure.Show(f.Peer), f.Ratio is { } r ? $"{r:0.00}" : "-", LimitOf(f), Verdict(f),
        }));
        var widths = Enumerable.Range(0, lines[0].Length).Select(c => lines.Max(l => l[c].Length)).ToArray();
        foreach (var line in lines)
            Console.WriteLine(string.Join("  ", line.Select((cell, c) => c is 0 or 1 or 6 ? cell.PadRight(widths[c]) : cell.PadLeft(widths[c]))).TrimEnd());
    }

    private static string LimitOf(Figure f) => f.Limit switch
    {
        null => "-",
        { OfRatio: true } l => $"{l.AtMost:0.##} x",
        var l => $"{l.AtMost:0.##}",
    };

    private static string Verdict(Figure f) => (f.Met, f.Limit) switch
    {
        (true, _) => "met",
        (false, _) => "MISSED",
        (null, null) => "",
        _ => "not measured",
    };
}
