using System.CommandLine;
using System.Globalization;
using Sandarac.Cli.Output;
using Sandarac.Studio;
using Sandarac.Studio.Archive;
using Sandarac.Studio.Archive.BagIt;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac unpack</c>: takes a package into a studio, or only says whether it is sound.</summary>
internal static class UnpackCommand
{
    public static Command Create()
    {
        var bag = new Argument<string>("BAG") { Description = "The package: a folder or a zip." };
        var check = new Option<bool>("--check") { Description = "Only look: print what is wrong with it and what is to be known of it. Exit code 1 when it is not sound." };
        var studio = new StudioOption();
        var command = new Command("unpack", "Take a packed painting into a studio. Everything in the package is checked before anything of it enters.") { bag, check };
        studio.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            if (parsed.GetValue(check)) return await Check(parsed.GetRequiredValue(bag), cancellation);
            using var opened = studio.Open(parsed);
            return await Unpack(opened, parsed.GetRequiredValue(bag), cancellation);
        });
        return command;
    }

    private static async Task<int> Check(string bag, CancellationToken cancellation)
    {
        var found = await Say.WithProgress("Checking", report => Unpacking.Check(bag, new SynchronousProgress<double>(d => report(d, "")), cancellation));
        Print("", found.Problems);
        Print("warning, ", found.Warnings);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{found.Files} files, {found.Bytes / 1e6:0.0} MB; {(found.IsSound ? $"sound: {found.Title}, painting {found.PaintingId}" : $"not sound: {found.Problems.Count} things are wrong")}."));
        return found.IsSound ? 0 : 1;
    }

    private static async Task<int> Unpack(OpenStudio studio, string bag, CancellationToken cancellation)
    {
        var unpacked = await Say.WithProgress("Unpacking", report => new Unpacking(studio).Unpack(bag, new SynchronousProgress<double>(d => report(d, "")), cancellation));
        Print("warning, ", unpacked.Warnings);
        Console.WriteLine(unpacked.AlreadyThere ? $"{unpacked.Title} is in this studio already, exactly as in the package; nothing was done."
            : string.Create(CultureInfo.InvariantCulture, $"{unpacked.Title}: {unpacked.Rows} rows of the record and {unpacked.Files} files, painting {unpacked.PaintingId}"));
        Say.Line($"To look at it: sandarac open --studio {studio.Folder}");
        return 0;
    }

    private static void Print(string kind, IReadOnlyList<BagNote> notes)
    {
        foreach (var note in notes) Console.WriteLine($"{kind}{note.Code}: {note.Subject}: {note.Message}");
    }
}
