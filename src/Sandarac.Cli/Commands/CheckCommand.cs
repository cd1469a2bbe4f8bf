using System.CommandLine;
using System.Globalization;
using Sandarac.Cli.Output;
using Sandarac.Studio;

namespace Sandarac.Cli.Commands;

internal static class CheckCommand
{
    public static Command Create()
    {
        var studio = new StudioOption();
        var command = new Command("check", "Read everything in the studio again and compare it with its hash. Exit code 1 when anything is missing, damaged or orphaned.");
        studio.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            using var opened = studio.Open(parsed);
            return await Check(opened, cancellation);
        });
        return command;
    }

    private static async Task<int> Check(OpenStudio studio, CancellationToken cancellation)
    {
        var report = await Say.WithProgress("Checking", say => new Checking(studio).Check(new SynchronousProgress<double>(d => say(d, "objects")), cancellation));
        foreach (var finding in report.Findings) Console.WriteLine($"{finding.Kind}: {finding.Subject} {finding.Sha256}. {finding.Remedy}");
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{report.Objects} objects, {report.Bytes / 1e6:0.0} MB read again; {(report.IsClean ? "all there and whole" : $"{report.Findings.Count} not as they should be")}."));
        if (report.Leftovers > 0) Console.WriteLine($"{report.Leftovers} temporary files of imports that ended early; the next import removes them.");
        return report.IsClean ? 0 : 1;
    }
}
