using Sandarac.Imaging;
using Spectre.Console;

namespace Sandarac.Cli.Output;

/// <summary>Words for a person, on standard error; standard output is kept for results.</summary>
internal static class Say
{
    private static readonly IAnsiConsole Console =
        AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(System.Console.Error) });

    public static void Line(string text) => Console.WriteLine(text);

    public static void Problem(InputProblem problem)
    {
        Console.WriteLine($"Problem with {problem.Subject}: {problem.Message}");
        Console.WriteLine($"  What to do: {problem.Remedy}");
        Console.WriteLine($"  ({problem.Code})");
    }

    /// <summary>Runs work in the background with a progress bar where there is a terminal, else with a line at every tenth.</summary>
    public static async Task<T> WithProgress<T>(string title, Func<Action<double, string>, T> work)
    {
        if (!Console.Profile.Capabilities.Interactive || System.Console.IsErrorRedirected) return await Task.Run(() => work(new Tenths(title).Report));
        return await Console.Progress().Columns(new ProgressBarColumn(), new PercentageColumn(), new ElapsedTimeColumn(), new TaskDescriptionColumn())
            .StartAsync(async context =>
            {
                var task = context.AddTask(title, maxValue: 1);
                var result = await Task.Run(() => work((done, item) =>
                {
                    task.Value = done;
                    task.Description = $"{title}: {item}".EscapeMarkup();
                }));
                task.Value = 1;
                task.Description = title;
                return result;
            });
    }

    private sealed class Tenths(string title)
    {
        private readonly Lock _lock = new();
        private int _said = -1;

        public void Report(double done, string item)
        {
            lock (_lock)
            {
                var tenth = (int)(done * 10);
                if (tenth <= _said) return;
                _said = tenth;
                Line($"{title} {tenth * 10,3} %  {item}");
            }
        }
    }
}
