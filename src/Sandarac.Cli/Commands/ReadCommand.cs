using System.CommandLine;
using Sandarac.Analysis.Declaring;

namespace Sandarac.Cli.Commands;

internal static class ReadCommand
{
    public static Command Create()
    {
        var command = new Command("read", "Run one reading on image files, without a studio.");
        foreach (var reading in ReadingCatalogue.All) command.Subcommands.Add(For(reading));
        return command;
    }

    private static Command For(Reading reading) => new(reading.Declaration.Id, reading.Declaration.Summary);
}
