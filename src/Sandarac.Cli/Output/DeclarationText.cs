using Sandarac.Analysis.Declaring;
using Spectre.Console;

namespace Sandarac.Cli.Output;

/// <summary>A declaration as text in a terminal.</summary>
internal static class DeclarationText
{
    public static void WriteList(IReadOnlyList<Reading> readings)
    {
        var table = new Table().Border(TableBorder.None).HideHeaders().AddColumns("id", "summary", "inputs");
        foreach (var d in readings.Select(r => r.Declaration))
            table.AddRow($"[bold]{d.Id.EscapeMarkup()}[/] {d.Version}", d.Summary.EscapeMarkup(), string.Join(" + ", d.Inputs.Select(Lights)).EscapeMarkup());
        AnsiConsole.Write(table);
        AnsiConsole.WriteLine("`sandarac read ID --help` explains one.");
    }

    public static string Lights(InputSlot slot) => slot.Lights.Count == 0 ? "any light" : string.Join("/", slot.Lights.Select(l => l.Code));
}
