using System.CommandLine;
using System.Text.Json;
using Sandarac.Analysis.Declaring;
using Spectre.Console;

namespace Sandarac.Cli.Commands;

internal static class ReadingsCommand
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    public static Command Create()
    {
        var json = new Option<bool>("--json") { Description = "The whole declarations as JSON." };
        var docs = new Option<DirectoryInfo?>("--docs") { Description = "Write a page for each reading into a folder instead.", HelpName = "FOLDER" };
        var command = new Command("readings", "List the readings: what can be computed, from which lights.") { json, docs };
        command.SetAction(parsed =>
        {
            if (parsed.GetValue(docs) is { } folder) ReadingDocuments.Write(folder.FullName);
            else if (parsed.GetValue(json)) Console.WriteLine(JsonSerializer.Serialize(ReadingCatalogue.All.Select(r => DeclarationView.Of(r.Declaration)), Json));
            else WriteList();
        });
        return command;
    }

    private static void WriteList()
    {
        var table = new Table().Border(TableBorder.None).AddColumns("reading", "what it answers", "from");
        foreach (var d in ReadingCatalogue.All.Select(r => r.Declaration))
            table.AddRow($"{d.Id} {d.Version}", d.Summary.EscapeMarkup(), string.Join(" and ", d.Inputs.Where(s => s.Minimum > 0).Select(Lights)));
        AnsiConsole.Write(table);
        AnsiConsole.WriteLine("`sandarac read ID --help` explains one.");
    }

    private static string Lights(InputSlot slot) => slot.Lights.Count == 0 ? "any light" : string.Join("/", slot.Lights.Select(l => l.Code));
}
