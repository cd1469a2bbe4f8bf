using System.CommandLine;
using Sandarac.Cli.Output;
using Sandarac.Imaging;
using Sandarac.Materials.Dating;
using Sandarac.Studio.Datings.Drawing;
using Spectre.Console;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac dating</c>: the years of materials held against a painting's.</summary>
internal static class DatingCommand
{
    public static Command Create()
    {
        var materials = new Argument<string[]>("MATERIAL") { Description = "Names of pigments; part of a name gives all that hold it. Without any: the whole table.", Arity = ArgumentArity.ZeroOrMore };
        var from = new Option<int?>("--from") { Description = "The first year in which it can have been painted; negative before our era.", HelpName = "YEAR" };
        var to = new Option<int?>("--to") { Description = "The last one.", HelpName = "YEAR" };
        var picture = new Option<string?>("--out") { Description = "Write the timeline as SVG.", HelpName = "FILE.svg" };
        var command = new Command("dating", "Hold the years of materials against a painting's: consistent, later, ended before, contested, cannot be told.") { materials, from, to, picture };
        command.SetAction(parsed =>
        {
            if (parsed.GetValue(from) > parsed.GetValue(to)) throw new InputProblem("years", "--from", $"{parsed.GetValue(from)} lies after {parsed.GetValue(to)}.", "Give the first year with --from, the last with --to.");
            var pigments = parsed.GetValue(materials) is { Length: > 0 } names ? names.SelectMany(Named).Distinct().ToList() : Pigment.All;
            DatingCheck[] checks = [.. pigments.Select(p => DatingCheck.Of(p, parsed.GetValue(from), parsed.GetValue(to)))];
            Write(checks);
            if (parsed.GetValue(picture) is not { } file) return;
            File.WriteAllText(file, TimelineDrawing.Draw(checks));
            Console.WriteLine(Path.GetFullPath(file));
        });
        return command;
    }

    private static IReadOnlyList<Pigment> Named(string words) => Pigment.Named(words) is { Count: > 0 } found ? found
        : throw new InputProblem("unknown-material", words, $"\"{words}\" is not in the table of pigments.", $"Nearest: {Analysis.Declaring.Suggestion.Nearest(words, Pigment.All.Select(p => p.Name)) ?? "none"}. `sandarac dating` lists all.");

    private static void Write(IReadOnlyList<DatingCheck> checks)
    {
        var table = new Table().Border(TableBorder.Simple).AddColumns("", "material", "verdict", "why", "known from");
        foreach (var (c, i) in checks.Select((c, i) => (c, i)))
            table.AddRow(new[] { TimelineDrawing.Letter(i), c.Pigment.Name, TimelineDrawing.Words(c.Verdict), c.Question.Length > 0 ? $"{c.Reason} {c.Question}" : c.Reason, $"{c.Pigment.Source} [{(c.Pigment.IsRead ? "READ: " + c.Pigment.WhatWasRead : "MEMORY: not verified")}]" }.Select(t => t.EscapeMarkup()).ToArray());
        SolventOutput.Write(table);
        foreach (var caution in DatingCheck.Cautions) Say.Line(caution);
    }
}
