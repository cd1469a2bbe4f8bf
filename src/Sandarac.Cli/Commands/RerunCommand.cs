using System.CommandLine;
using Sandarac.Cli.Output;
using Sandarac.Studio;

namespace Sandarac.Cli.Commands;

internal static class RerunCommand
{
    public static Command Create()
    {
        var run = new Argument<Guid>("RUN") { Description = "The run's id, as every document prints it." };
        var studio = new StudioOption();
        var command = new Command("rerun", "Repeat a run from its stored inputs and parameters and compare. Exit code 1 when anything differs.") { run };
        studio.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            using var opened = studio.Open(parsed);
            var repetition = await Say.WithProgress("Running again",
                report => new Running(opened).Rerun(parsed.GetValue(run), new SynchronousProgress<double>(d => report(d, "")), cancellation));
            foreach (var difference in repetition.Differences) Console.WriteLine(difference);
            var same = repetition is { FiguresEqual: true, RastersEqual: true };
            Console.WriteLine(same ? "The same figures and the same rasters." : "Not the same.");
            return same ? 0 : 1;
        });
        return command;
    }
}
