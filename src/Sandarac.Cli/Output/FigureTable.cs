using Sandarac.Analysis.Declaring;
using Spectre.Console;

namespace Sandarac.Cli.Output;

/// <summary>A bare run's result as a table on standard output.</summary>
internal static class FigureTable
{
    public static void Write(BareResult result, string folder)
    {
        if (result.NoAnswer is { } why) AnsiConsole.WriteLine($"No answer: {why}");
        var table = new Table().Border(TableBorder.Simple).AddColumns("figure", "of", "value", "unit", "note");
        foreach (var f in result.Figures) table.AddRow(Cells(f).Select(c => c.EscapeMarkup()).ToArray());
        // A file or a pipe has no width of its own; eighty columns would break every word.
        if (Console.IsOutputRedirected) AnsiConsole.Profile.Width = 200;
        if (result.Figures.Count > 0) AnsiConsole.Write(table);
        foreach (var candidate in result.Candidates) AnsiConsole.WriteLine($"Candidate, {candidate.Kind}: {candidate.Reason}");
        foreach (var warning in result.Warnings) AnsiConsole.WriteLine($"Note: {warning.Message}");
        foreach (var raster in result.Rasters) AnsiConsole.WriteLine($"{Path.Combine(folder, raster.File)} ({string.Join(", ", raster.Bands)}{(raster.Unit == "1" ? "" : "; " + raster.Unit)})");
        AnsiConsole.WriteLine(Path.Combine(folder, "figures.json"));
    }

    private static IEnumerable<string> Cells(FigureText f)
    {
        yield return f.Title;
        yield return f.Subject ?? "";
        yield return f.Value is { } v ? Rounding.Rounded(v, f.Uncertainty) is (var value, { } pm) ? $"{value} ± {pm}" : Rounding.Rounded(v, null).Value : "no answer";
        yield return f.Unit == "1" ? "" : f.Unit;
        yield return f.Note ?? "";
    }
}
