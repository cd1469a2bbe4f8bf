using System.Globalization;
using Sandarac.Analysis.Rings;
using Sandarac.Analysis.Rings.Dating;
using Sandarac.Materials.Wood;
using Sandarac.Studio.Rings;
using Spectre.Console;

namespace Sandarac.Cli.Output;

/// <summary>Rings and what follows from them, as tables on standard output.</summary>
internal static class RingTables
{
    private const int MatchesShown = 3;

    public static void Series(IReadOnlyList<RingWidths> series)
    {
        var table = New("series", "from", "to", "rings", "mean, mm", "absent", "not measured");
        foreach (var s in series)
            table.AddRow(s.Id.EscapeMarkup(), s.IsDated ? Whole(s.FirstYear) : "no date", s.IsDated ? Whole(s.LastYear) : "", Whole(s.Widths.Count), Number(s.Widths.Where(double.IsFinite).DefaultIfEmpty(double.NaN).Average(), "0.00"),
                Whole(s.Widths.Count(w => w == 0)), Whole(s.Widths.Count(double.IsNaN)));
        AnsiConsole.Write(table);
    }

    public static void Dating(RingDating dating)
    {
        var (result, table) = (dating.Dating, New("reference", "last ring", "t", "r", "N", "parallel, %", "verdict"));
        var freedom = result.Settings.Convention == TConvention.Pairs ? "N - 2" : "N - 4 - 2";
        AnsiConsole.WriteLine($"{result.Sample.Id}, {result.Sample.Widths.Count} rings; {(result.Settings.Transform == RingTransformKind.BailliePilcher ? "Baillie and Pilcher" : "Hollstein")}, t with {freedom} degrees of freedom, references averaged by {(result.Settings.Mean == MasterMean.Biweight ? "Tukey's biweight" : "plain means")}.");
        AnsiConsole.WriteLine(result.Told);
        foreach (var verdict in result.Verdicts)
            foreach (var (match, i) in verdict.Matches.Take(MatchesShown).Select((m, i) => (m, i)))
                table.AddRow([.. Cells(verdict, match, i == 0).Select(c => c.EscapeMarkup())]);
        AnsiConsole.Write(table);
        foreach (var verdict in result.Verdicts.Where(v => v.Best is null)) AnsiConsole.WriteLine($"{verdict.Reference.Name}: {verdict.Refusal}.");
        if (dating.Felling is { } felling) Felling(felling);
        if (dating.Use is { } use) Use(use);
        if (result.Outlying is { Count: > 0 } rings) AnsiConsole.WriteLine($"Note: look again at ring {string.Join(", ", rings)}: so far from the others that a boundary may be false, missing or misplaced; one such ring can hide a match.");
        foreach (var name in dating.LeftOut) AnsiConsole.WriteLine($"Note: the sample's own series stands in {name}; it was left out of it.");
        foreach (var caution in RingDating.Cautions) AnsiConsole.WriteLine($"Note: {caution}");
    }

    private static IEnumerable<string> Cells(ReferenceVerdict verdict, CrossMatch match, bool isBest)
    {
        yield return isBest ? verdict.Reference.Name : "";
        yield return Whole(match.EndYear);
        yield return Number(match.T, "0.00");
        yield return Number(match.Correlation, "0.000");
        yield return Whole(match.Pairs);
        yield return Number(100 * match.Parallel.Share, "0.0");
        yield return !isBest ? "" : verdict.Refusal ?? string.Create(CultureInfo.InvariantCulture, $"proposed; chance {verdict.Chance:0.0e+0} over {verdict.Matches.Count} positions, isolation {verdict.Isolation:0.0e+0}, spread of t {verdict.Spread:0.00}");
    }

    private static void Felling(FellingDate felling)
    {
        var later = felling.IsEarliestOnly ? " or later" : "";
        AnsiConsole.WriteLine($"Felled {felling.Earliest} at the earliest{(felling.Likely is { } l ? string.Create(CultureInfo.InvariantCulture, $"; {l.From} to {l.To}{later} in {100 * l.Holds:0.#} of 100 trees") : "")}{(felling.Median is { } m ? $"; median {m}{later}" : "")}.");
        AnsiConsole.WriteLine($"  {felling.Basis}{(felling.Model is { } model ? $" {model.Title} ({model.Flag}): {model.Source}." : "")}");
    }

    private static void Use(UseDate use)
    {
        var later = use.Felling.IsEarliestOnly ? " or later" : "";
        AnsiConsole.WriteLine($"Used {use.Earliest} at the earliest{(use.Likely is { } l ? $"; probably {l.From} to {l.To}{later}" : "")}{(use.AroundMedian is { } m ? $"; {m.From} to {m.To}{later} from the median" : "")}.");
        AnsiConsole.WriteLine($"  Storing {use.Seasoning.Least} to {use.Seasoning.Most} years: {use.Seasoning.Title} ({use.Seasoning.Flag}{(use.Seasoning.Flag == "MEMORY" ? ", not verified" : "")}): {use.Seasoning.Source}.");
    }

    private static Table New(params string[] columns)
    {
        // A file or a pipe has no width of its own; eighty columns would break every word.
        if (Console.IsOutputRedirected) AnsiConsole.Profile.Width = 200;
        return new Table().Border(TableBorder.Simple).AddColumns(columns);
    }

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Number(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
