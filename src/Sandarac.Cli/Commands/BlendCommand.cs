using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Sandarac.Cli.Output;
using Sandarac.Imaging;
using Sandarac.Materials;
using Sandarac.Materials.Safety;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Decisions.Drawing;
using Spectre.Console;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac blend</c>: blends of a few solvents nearest a place in one of the systems.</summary>
internal static class BlendCommand
{
    public static Command Create()
    {
        var target = new Option<string>("--target") { Description = "A mixture to take the place of, a region's name, or hansen:DD,DP,DH[,R0] or teas:FD,FP,FH.", HelpName = "PLACE", Required = true };
        var max = new Option<int>("--max") { Description = "At most so many solvents, 1 to 3.", DefaultValueFactory = _ => BlendLimits.Most };
        var least = new Option<double>("--least") { Description = "Least share of each, percent by volume.", DefaultValueFactory = _ => new BlendLimits().LeastPercent };
        var exclude = new Option<string[]>("--exclude") { Description = "Hazard codes (H351, or H35 for all that begin so) or kinds that none may bear; \"none\" leaves nothing out.", HelpName = "HAZARD", AllowMultipleArgumentsPerToken = true, DefaultValueFactory = _ => ["carcinogen", "mutagen", "reproduction"] };
        var boiling = new Option<string?>("--boiling") { Description = "Range of boiling points, C: 60..150.", HelpName = "RANGE" };
        var ratio = new Option<double?>("--ratio") { Description = "Evaporation balance: highest vapour pressure over the lowest, at most.", HelpName = "TIMES" };
        var strong = new Option<bool>("--strong-first") { Description = "Of two parts the stronger is never the less volatile: what is left grows no stronger as it evaporates." };
        var shelf = new Option<string[]>("--from") { Description = "Solvents to choose from; the whole table without it.", HelpName = "NAME", AllowMultipleArgumentsPerToken = true };
        var count = new Option<int>("--count") { Description = "How many blends to show.", DefaultValueFactory = _ => 10 };
        var json = new Option<bool>("--json") { Description = "As JSON." };
        var output = new Option<string?>("--out") { Description = "Folder for triangle.svg and hansen.svg of the nearest.", HelpName = "DIR" };
        var command = new Command("blend", "Find blends of one to three solvents nearest a target in the Hansen or the Teas system.") { target, max, least, exclude, boiling, ratio, strong, shelf, count, json, output };
        command.SetAction(parsed =>
        {
            var (low, high) = Range(parsed.GetValue(boiling));
            var limits = new BlendLimits(parsed.GetValue(max), parsed.GetValue(least), parsed.GetRequiredValue(exclude) is ["none"] ? [] : parsed.GetRequiredValue(exclude), low, high, parsed.GetValue(ratio), parsed.GetValue(strong), parsed.GetValue(shelf) is { Length: > 0 } names ? names : null);
            var place = BlendTarget.Parse(parsed.GetRequiredValue(target), SolubilityRegion.All);
            var answer = BlendSearch.Find(place, limits, parsed.GetValue(count));
            if (parsed.GetValue(json)) Console.WriteLine(JsonSerializer.Serialize(View(answer), SolventOutput.Json));
            else Write(answer, place);
            if (parsed.GetValue(output) is { } folder && answer.Value?.Blends is [var best, ..])
                SolventOutput.WriteDrawings(folder, new SolventPlot(SolventTable.All, best.Mixture, SolubilityRegion.All, EvaporationDrift.Of(best.Mixture).Value, place));
        });
        return command;
    }

    private static (double? Low, double? High) Range(string? text)
    {
        if (text is null) return (null, null);
        double?[] ends = [.. text.Split("..").Select(t => double.TryParse(t, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) ? v : (double?)null)];
        return ends is [{ } low, { } high] && low < high ? (low, high) : throw new InputProblem("range", "--boiling", $"\"{text}\" is no range.", "Give two temperatures in C: 60..150.");
    }

    private static object View(Answer<BlendAnswer> answer) => new
    {
        answer.NoAnswer, answer.Value?.Compared, Blends = answer.Value?.Blends.Select(b => new { b.Distance, b.Red, b.HazardStatements, Mixture = SolventOutput.View(b.Mixture, EvaporationDrift.Of(b.Mixture, 2)) }),
        LeftOut = answer.Value?.LeftOut.Select(o => new { o.Solvent.Name, o.Reason }),
    };

    private static void Write(Answer<BlendAnswer> answer, BlendTarget target)
    {
        if (answer.Value is not { } found)
        {
            Console.WriteLine($"No answer: {answer.NoAnswer}");
            return;
        }
        var table = new Table().Border(TableBorder.None).AddColumns("blend, % by volume", $"distance, {target.Unit}", "RED", "hazards");
        foreach (var b in found.Blends) table.AddRow(b.Mixture.Text.EscapeMarkup(), Number(b.Distance, "0.00"), b.Red is { } red ? Number(red, "0.00") : "", $"{b.HazardStatements}");
        SolventOutput.Write(table);
        Console.WriteLine($"{found.Compared} combinations compared; {found.LeftOut.Count} solvents left out: {string.Join("; ", found.LeftOut.GroupBy(o => o.Reason).Select(g => $"{g.Count()} {g.Key}"))}.");
        Console.WriteLine("Near on paper only; pairs known not to mix freely are left out, from memory. What a blend does to a painting a test tells. `sandarac mix` shows one.");
        Console.WriteLine(SafetyCautions.Closing.Text);
    }

    private static string Number(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
