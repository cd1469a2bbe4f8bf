using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Sandarac.Cli.Output;
using Sandarac.Materials.Safety;
using Sandarac.Materials.Solvents;
using Spectre.Console;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac solvent</c>: the table of solvents, or one of them.</summary>
internal static class SolventCommand
{
    public static Command Create()
    {
        var name = new Argument<string?>("NAME") { Description = "A name, an alias or a CAS number; the whole table without it.", Arity = ArgumentArity.ZeroOrOne };
        var json = new Option<bool>("--json") { Description = "Everything as JSON." };
        var command = new Command("solvent", "List the solvents, or show one with its parameters, hazards and sources.") { name, json };
        command.SetAction(parsed =>
        {
            var solvents = parsed.GetValue(name) is { } called ? [SolventTable.Get(called)] : SolventTable.All;
            if (parsed.GetValue(json)) Console.WriteLine(JsonSerializer.Serialize(solvents, SolventOutput.Json));
            else if (parsed.GetValue(name) is null) WriteAll(solvents);
            else WriteOne(solvents[0]);
        });
        return command;
    }

    private static void WriteAll(IReadOnlyList<Solvent> solvents)
    {
        var table = new Table().Border(TableBorder.None).AddColumns("solvent", "dD / dP / dH", "fd / fp / fh", "boils, C", "flash, C", "hazards");
        foreach (var s in solvents)
            table.AddRow(new[] { s.Name, SolventOutput.Text(s.Hansen?.Value), SolventOutput.Text(s.Teas?.Value), $"{s.Boiling?.Value}", $"{s.Flash?.Value}", string.Join(' ', s.HazardCodes) }.Select(c => c.EscapeMarkup()).ToArray());
        SolventOutput.Write(table);
        AnsiConsole.WriteLine("`sandarac solvent NAME` shows one with the sources of its figures. Hazards are from memory: not verified.");
    }

    private static void WriteOne(Solvent s)
    {
        var table = new Table().Border(TableBorder.None).AddColumns("figure", "value", "source").HideHeaders();
        void Row(string what, string? value, string? source) => table.AddRow(what, (value ?? "not in the table").EscapeMarkup(), (value is null ? "" : source ?? "").EscapeMarkup());
        Row("CAS", s.Cas, "");
        Row("molar mass, g/mol", s.MolarMass?.ToString("0.00", CultureInfo.InvariantCulture), "CALC: from the formula");
        Row("density at 20 C, g/mL", s.Density?.Value.ToString("0.000", CultureInfo.InvariantCulture), s.Density?.Source);
        Row("Hansen dD / dP / dH, MPa^0.5", s.Hansen is { } h ? SolventOutput.Text(h.Value) : null, s.Hansen?.Source);
        if (s.OtherHansen.Length > 0) Row("  other sources", s.OtherHansen, "READ: as named there");
        Row("Teas fd / fp / fh, %", s.Teas is { } t ? SolventOutput.Text(t.Value) : null, s.Teas?.Source);
        Row("  derived from Hansen", s.Hansen is { } d ? SolventOutput.Text(d.Value.Teas) : null, "CALC: not a published table");
        Row("boils, C", s.Boiling?.Value.ToString(), s.Boiling?.Source);
        Row("vapour pressure at 20 C, kPa", s.VapourPressure?.Value.ToString(), s.VapourPressure?.Source);
        Row("evaporation, butyl acetate 1", s.Evaporation?.Value.ToString(), s.Evaporation?.Source);
        Row("explosive in air, % by volume", s.Explosive?.Value.ToString(), s.Explosive?.Source);
        if (s.Iarc.Length > 0) Row("IARC group", s.Iarc, "READ: IARC, in the chemicals data files");
        AnsiConsole.WriteLine(s.Aliases.Count == 0 ? s.Name : $"{s.Name} ({string.Join(", ", s.Aliases)})");
        SolventOutput.Write(table);
        SolventOutput.Write(SafetyCautions.For([s.Name]));
    }
}
