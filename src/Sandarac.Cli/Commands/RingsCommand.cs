using System.CommandLine;
using System.Text.Json;
using System.Text.Json.Serialization;
using Sandarac.Analysis.Rings;
using Sandarac.Analysis.Rings.Dating;
using Sandarac.Analysis.Rings.Files;
using Sandarac.Cli.Output;
using Sandarac.Imaging;
using Sandarac.Materials.Wood;
using Sandarac.Studio.Rings;
using Sandarac.Studio.Rings.Drawing;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac rings</c>: files of ring widths, listed, converted and dated, without a studio.</summary>
internal static class RingsCommand
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true, NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals, Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) } };

    public static Command Create() => new("rings", "Ring widths of panels: what a file holds, its conversion, and when the last ring grew.") { List(), Convert(), Date() };

    private static Command List()
    {
        var file = new Argument<string>("FILE") { Description = "Ring widths: .rwl (Tucson decadal) or .csv (year or ring, then a column for each series, mm)." };
        var command = new Command("list", "List the series of a file.") { file };
        command.SetAction(parsed => RingTables.Series(RingFile.Read(parsed.GetRequiredValue(file))));
        return command;
    }

    private static Command Convert()
    {
        var (from, to) = (new Argument<string>("FROM") { Description = "A .rwl or .csv file, or the figures.json of the reading ring-widths." }, new Argument<string>("TO") { Description = "The .rwl or .csv file to write; none is replaced." });
        var command = new Command("convert", "Write ring widths in the other format.") { from, to };
        command.SetAction(parsed =>
        {
            var (source, target) = (parsed.GetRequiredValue(from), parsed.GetRequiredValue(to));
            var series = source.EndsWith(".json", StringComparison.OrdinalIgnoreCase) ? [MeasuredSeries.OfFigures(source)] : RingFile.Read(source);
            if (File.Exists(target)) throw new InputProblem("file-exists", target, $"{target} is there already.", "Give another name.");
            File.WriteAllText(target, target.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) ? RingTable.Write(series) : TucsonFile.Write(series));
        });
        return command;
    }

    private static Command Date()
    {
        var sample = new Argument<string>("SERIES") { Description = "The board's ring widths, .rwl or .csv. Years that stand in it do not count." };
        var name = new Option<string?>("--series") { Description = "Which series of the file; needed when it holds several.", HelpName = "ID" };
        var against = new Option<string[]>("--against") { Description = "A file of dated series; once for each reference.", HelpName = "REF.rwl", Required = true, Arity = ArgumentArity.OneOrMore };
        var overlap = new Option<int>("--overlap") { Description = "Fewest years in which both have a value.", DefaultValueFactory = _ => new CrossDatingSettings().MinimumOverlap };
        var transform = new Option<RingTransformKind>("--transform") { Description = "bailliepilcher: logarithm against the mean of five years. hollstein: against the year before.", DefaultValueFactory = _ => RingTransformKind.BailliePilcher };
        var convention = new Option<TConvention>("--freedom") { Description = "Degrees of freedom of t: pairs (N - 2) or lessfouryears (N - 4 - 2).", DefaultValueFactory = _ => TConvention.Pairs };
        var mean = new Option<MasterMean>("--mean") { Description = "How a reference's series are averaged: biweight or plain.", DefaultValueFactory = _ => MasterMean.Biweight };
        var sapwood = new Option<int?>("--sapwood") { Description = "How many of the measured rings are sapwood; 0 where the boundary to the heartwood is there. Without it only heartwood is taken to be there.", HelpName = "N" };
        var edge = new Option<bool>("--waney-edge") { Description = "The last ring lies under the bark." };
        var model = new Option<string?>("--model") { Description = $"Sapwood to add: {string.Join(", ", SapwoodModel.All.Select(m => m.Id))}.", HelpName = "MODEL" };
        var storing = new Option<string?>("--seasoning") { Description = $"Years of storing to add: {string.Join(", ", Seasoning.All.Select(s => s.Id))}.", HelpName = "ID" };
        var output = new Option<string?>("--out") { Description = "Folder for dating.json and the plots.", HelpName = "DIR" };
        var json = new Option<bool>("--json") { Description = "Print the result as JSON." };
        var command = new Command("date", "Find the year of a board's last ring in dated references, and what follows for its felling and use.") { sample, name, against, overlap, transform, convention, mean, sapwood, edge, model, storing, output, json };
        command.SetAction(parsed =>
        {
            var settings = new CrossDatingSettings { MinimumOverlap = parsed.GetValue(overlap), Transform = parsed.GetValue(transform), Convention = parsed.GetValue(convention), Mean = parsed.GetValue(mean) };
            var outer = parsed.GetValue(edge) ? OuterWood.WaneyEdge : parsed.GetValue(sapwood) is null ? OuterWood.HeartwoodOnly : OuterWood.Sapwood;
            var dating = RingDating.Of(new RingDatingRequest(One(parsed.GetRequiredValue(sample), parsed.GetValue(name)), [.. parsed.GetRequiredValue(against).Select(f => (Path.GetFileName(f), RingFile.Read(f)))], settings, outer,
                parsed.GetValue(sapwood) ?? 0, Chosen("--model", parsed.GetValue(model), SapwoodModel.Find, SapwoodModel.All.Select(m => m.Id)), Chosen("--seasoning", parsed.GetValue(storing), Seasoning.Find, Seasoning.All.Select(s => s.Id))));
            if (parsed.GetValue(output) is { } folder) Write(dating, folder);
            if (parsed.GetValue(json)) Console.WriteLine(JsonSerializer.Serialize(RingDatingShape.Of(dating), Json));
            else RingTables.Dating(dating);
        });
        return command;
    }

    private static RingWidths One(string file, string? id)
    {
        var series = RingFile.Read(file);
        if (id is null && series.Count == 1) return series[0];
        return series.FirstOrDefault(s => s.Id == id) ?? throw new InputProblem("series", "--series", id is null ? $"{Path.GetFileName(file)} holds {series.Count} series." : $"{Path.GetFileName(file)} holds no series {id}.",
            $"Give one of: {string.Join(", ", series.Take(20).Select(s => s.Id))}{(series.Count > 20 ? " ..." : "")}.");
    }

    private static T? Chosen<T>(string option, string? id, Func<string, T?> find, IEnumerable<string> all) where T : class => id is null ? null
        : find(id) ?? throw new InputProblem("choice", option, $"There is no {id}.", $"Give one of: {string.Join(", ", all)}.");

    private static void Write(RingDating dating, string folder)
    {
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "dating.json"), JsonSerializer.Serialize(RingDatingShape.Of(dating), Json));
        foreach (var (verdict, i) in dating.Dating.Verdicts.Select((v, i) => (v, i + 1)))
        {
            File.WriteAllText(Path.Combine(folder, $"positions-{i}.svg"), DatingDrawing.Positions(verdict));
            if (verdict.Best is { } best) File.WriteAllText(Path.Combine(folder, $"curves-{i}.svg"), DatingDrawing.Curves(dating.Dating, verdict, best));
        }
    }
}
