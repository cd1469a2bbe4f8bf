using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Materials.Wood;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac panel</c>: how far a panel moves across the grain between two climates.</summary>
internal static class PanelCommand
{
    private const double Radial = 0, Tangential = 90;

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    public static Command Create()
    {
        var wood = new Option<string>("--wood") { Description = $"One of: {string.Join(", ", WoodShrinkage.All.Select(w => w.Wood))}.", HelpName = "WOOD", Required = true };
        var cut = new Option<string>("--cut") { Description = "radial, tangential, or the angle in degrees between the board's width and the radial direction.", HelpName = "CUT", DefaultValueFactory = _ => "radial" };
        var widths = new Option<double[]>("--width") { Description = "A board's width across the grain, mm; once for each board.", HelpName = "MM", Required = true, Arity = ArgumentArity.OneOrMore };
        var from = new Option<double>("--from") { Description = "Relative humidity that the panel is used to, per cent.", HelpName = "RH", Required = true };
        var to = new Option<double>("--to") { Description = "Relative humidity that it comes to rest in.", HelpName = "RH", Required = true };
        var temperature = new Option<double>("--temperature") { Description = "Degrees C, the same before and after.", HelpName = "C", DefaultValueFactory = _ => 20 };
        var json = new Option<bool>("--json") { Description = "Print the result as JSON." };
        var command = new Command("panel", "How far a panel of bare wood moves across the grain between two humidities, at most.") { wood, cut, widths, from, to, temperature, json };
        command.SetAction(parsed =>
        {
            var name = parsed.GetRequiredValue(wood);
            var shrinkage = WoodShrinkage.Find(name) ?? throw new InputProblem("wood", "--wood", $"The table has no {name}.", $"Give one of: {string.Join(", ", WoodShrinkage.All.Select(w => w.Wood))}.");
            var angle = Angle(parsed.GetRequiredValue(cut));
            var movement = PanelMovement.Between([.. parsed.GetRequiredValue(widths).Select(w => new Board(shrinkage, w, angle))], new Climate(parsed.GetValue(from), parsed.GetValue(temperature)), new Climate(parsed.GetValue(to), parsed.GetValue(temperature)));
            if (parsed.GetValue(json)) Console.WriteLine(JsonSerializer.Serialize(new { movement, PanelMovement.Source, moistureSource = MoistureContent.Source, PanelMovement.Cautions }, Json));
            else Write(movement);
        });
        return command;
    }

    private static double Angle(string cut) => cut switch
    {
        "radial" => Radial,
        "tangential" => Tangential,
        _ => double.TryParse(cut, NumberStyles.Float, CultureInfo.InvariantCulture, out var angle) && angle is >= Radial and <= Tangential ? angle
            : throw new InputProblem("cut", "--cut", $"\"{cut}\" is not a cut.", "Give radial, tangential, or an angle from 0 (radial) to 90 (tangential)."),
    };

    private static void Write(PanelMovement movement)
    {
        foreach (var b in movement.Boards) Console.WriteLine($"{b.Board.Shrinkage.Wood}, {Number(b.Board.WidthMm, "0.#")} mm, {Number(b.Board.RingAngle, "0")} degrees from radial: {Moves(b.ChangeMm, b.LeastMm, b.MostMm)}");
        Console.WriteLine($"Panel: {Moves(movement.ChangeMm, movement.LeastMm, movement.MostMm)} at moisture contents of {Number(movement.FromMoisture, "0.0")} % and then {Number(movement.ToMoisture, "0.0")} %.");
        Console.WriteLine($"Shrinkage: {movement.Boards[0].Board.Shrinkage.Source} ({movement.Boards[0].Board.Shrinkage.Flag}).");
        Console.WriteLine($"Movement: {PanelMovement.Source}.");
        Console.WriteLine($"Moisture: {MoistureContent.Source}.");
        foreach (var caution in PanelMovement.Cautions) Console.WriteLine($"Note: {caution}");
    }

    private static string Moves(double change, double least, double most) => $"{(change < 0 ? "shrinks" : "swells")} by {Number(Math.Abs(change), "0.00")} mm ({Number(Math.Abs(least), "0.00")} to {Number(Math.Abs(most), "0.00")})";

    private static string Number(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
