using System.CommandLine;
using System.Globalization;
using Sandarac.Cli.Output;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Record;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac scale</c>: a painting's size from one measured distance.</summary>
internal static class ScaleCommand
{
    public static Command Create()
    {
        var painting = new Argument<Guid>("PAINTING") { Description = "The painting's id, as in the address of its Easel." };
        var from = new Option<string>("--from") { Description = "A place: mm from the left edge and from the bottom edge, as the Easel shows them.", HelpName = "X,Y", Required = true };
        var to = new Option<string>("--to") { Description = "Another place, far from it.", HelpName = "X,Y", Required = true };
        var mm = new Option<double>("--mm") { Description = "How far apart they are on the object, in mm, as measured.", HelpName = "MM", Required = true };
        var studio = new StudioOption();
        var command = new Command("scale", "Correct a painting's size by one distance measured on it, and align every photograph again.") { painting, from, to, mm };
        studio.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            using var opened = studio.Open(parsed);
            // From the bottom or from the top, the distance is the same.
            var runs = new Sizing(opened).QueueByDistance(parsed.GetValue(painting), Place("--from", parsed.GetRequiredValue(from)), Place("--to", parsed.GetRequiredValue(to)), parsed.GetValue(mm), Environment.UserName);
            var running = new Running(opened);
            var ended = await Say.WithProgress("Aligning", report => runs.Select((run, i) =>
            {
                var result = running.Execute(run.Id, null, cancellation);
                report((i + 1.0) / runs.Count, run.Inputs[0].FileName);
                return result;
            }).ToList());
            using var db = opened.CreateDb();
            var now = db.Paintings.Find(parsed.GetValue(painting))!;
            Console.WriteLine($"{now.Title}, {Words.Size(now)} (height x width{Words.Spread(now)}; {Words.Origin(now.SizeOrigin)}); photographs aligned again: {ended.Count(r => r.State == RunState.Done)}.");
            foreach (var run in ended.Where(r => r.State != RunState.Done))
                Console.WriteLine($"Not aligned again, and out of place: {run.Inputs[0].FileName}: {run.Problem?.Message} {run.Problem?.Remedy}");
            Say.Line("Readings keep their former places until the folder is examined again.");
            return 0;
        });
        return command;
    }

    private static Point2 Place(string option, string text) => text.Split(',') is [var x, var y] && Number(x) is { } left && Number(y) is { } bottom ? new Point2(left, bottom)
        : throw new InputProblem("place", option, $"\"{text}\" is not a place.", "Give mm from the left edge and from the bottom edge: 20.5,35.");

    private static double? Number(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) && double.IsFinite(v) ? v : null;
}
