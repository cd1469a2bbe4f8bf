using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Sandarac.Cli.Output;
using Sandarac.Materials;
using Sandarac.Materials.Safety;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Decisions.Drawing;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac mix</c>: what a mixture of solvents is in both systems, and how it drifts.</summary>
internal static class MixCommand
{
    public static Command Create()
    {
        var mixture = new Argument<string>("MIXTURE") { Description = "Solvents with percent by volume: \"ethanol 20 + isooctane 80\"." };
        var json = new Option<bool>("--json") { Description = "As JSON." };
        var output = new Option<string?>("--out") { Description = "Folder for triangle.svg and hansen.svg.", HelpName = "DIR" };
        var command = new Command("mix", "Show a mixture in the Teas and the Hansen system, as it evaporates, and what to beware of.") { mixture, json, output };
        command.SetAction(parsed =>
        {
            var mixed = Mixture.Parse(parsed.GetRequiredValue(mixture));
            var drift = EvaporationDrift.Of(mixed);
            if (parsed.GetValue(json)) Console.WriteLine(JsonSerializer.Serialize(SolventOutput.View(mixed, drift), SolventOutput.Json));
            else Write(mixed, drift);
            if (parsed.GetValue(output) is { } folder) SolventOutput.WriteDrawings(folder, new SolventPlot(SolventTable.All, mixed, SolubilityRegion.All, drift.Value));
        });
        return command;
    }

    private static void Write(Mixture mixture, Answer<EvaporationDrift> drift)
    {
        Console.WriteLine(mixture.Text);
        Console.WriteLine($"Teas fd / fp / fh by volume, %: {(mixture.Teas.Value is { } teas ? SolventOutput.Text(teas) : mixture.Teas.NoAnswer)}");
        Console.WriteLine($"Hansen dD / dP / dH by volume, MPa^0.5: {(mixture.Hansen.Value is { } h ? SolventOutput.Text(h) + string.Create(CultureInfo.InvariantCulture, $", total {h.Total:0.0}") : mixture.Hansen.NoAnswer)}");
        if (mixture.Hansen.Value is { } hansen) Console.WriteLine($"Teas derived from these, %: {SolventOutput.Text(hansen.Teas)}");
        if (mixture.Routes?.Note is { } note) Console.WriteLine($"Note: {note}");
        if (Miscibility.Note(mixture) is { } apart) Console.WriteLine($"Note: {apart}");
        if (mixture.Hansen.Value is { } place) foreach (var region in SolubilityRegion.All) Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"RED {region.Red(place):0.00} to {region.Name} ({region.Source}: not verified)"));
        WriteDrift(drift);
        SolventOutput.Write(SafetyCautions.For(mixture));
    }

    private static void WriteDrift(Answer<EvaporationDrift> drift)
    {
        if (drift.NoAnswer is { } why) Console.WriteLine($"As it evaporates: no answer. {why}");
        if (drift.Value is not { } found) return;
        foreach (var gone in (double[])[50, 90])
        {
            var left = found.Points.MinBy(p => Math.Abs(p.EvaporatedPercent - gone))!;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"When {left.EvaporatedPercent:0} % of the volume is gone: {left.Left.Text}"));
        }
        foreach (var caution in found.Cautions) Console.WriteLine($"Note: {caution}");
    }
}
