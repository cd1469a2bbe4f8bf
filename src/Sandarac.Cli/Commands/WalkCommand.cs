using System.CommandLine;
using Sandarac.Cli.Output;
using Sandarac.Server;
using Sandarac.Studio;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac walk</c>: a painting, or a walk of it, as a folder to be shown anywhere.</summary>
internal static class WalkCommand
{
    public static Command Create()
    {
        var painting = new Argument<Guid>("PAINTING") { Description = "The painting's id, as in the address of its Easel." };
        var walk = new Option<string?>("--walk") { Description = "A walk's title or id; without it the painting alone with all its lights and zones.", HelpName = "TITLE_OR_ID" };
        var folder = new Option<DirectoryInfo>("--out") { Description = "The folder to make.", HelpName = "FOLDER", Required = true };
        var address = new Option<string>("--base") { Description = "Where the folder will be served: IIIF's files name their own addresses.", HelpName = "ADDRESS", DefaultValueFactory = _ => WalkExportOptions.LocalAddress };
        var attribution = new Option<string>("--attribution") { Description = "Who is to be named with the pictures.", HelpName = "TEXT", DefaultValueFactory = _ => "" };
        var rights = new Option<string>("--rights") { Description = "Address of a licence of Creative Commons or a statement of RightsStatements.org.", HelpName = "ADDRESS", DefaultValueFactory = _ => "" };
        var longest = new Option<int>("--longest-side") { Description = "The longer side of the pictures has at most so many pixels; 0 for all that there are.", HelpName = "PIXELS", DefaultValueFactory = _ => 0 };
        var studio = new StudioOption();
        var command = new Command("walk", "Write a painting, or a walk of it, as a folder that a web server or a file opener shows, with IIIF Presentation 3 and Web Annotations.") { painting, walk, folder, address, attribution, rights, longest };
        studio.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            using var opened = studio.Open(parsed);
            var id = parsed.GetValue(painting);
            var content = parsed.GetValue(walk) is { } named ? new Walks(opened).Named(id, named).Content : null;
            var options = new WalkExportOptions { BaseAddress = parsed.GetRequiredValue(address), Attribution = parsed.GetRequiredValue(attribution), Rights = parsed.GetRequiredValue(rights), LongestSide = parsed.GetValue(longest) };
            var made = await Say.WithProgress("Writing", report => new WalkExport(opened, ShippedViewer.Folder)
                .Write(id, content, parsed.GetRequiredValue(folder).FullName, options, new SynchronousProgress<double>(d => report(d, "pictures")), cancellation));
            foreach (var warning in made.Warnings) Console.WriteLine($"Note: {warning.Message}");
            Console.WriteLine($"{made.Folder}: {made.Pictures} pictures of {made.Width} x {made.Height} pixels, {made.Steps} views, {made.Files} files of pictures.");
            Say.Line($"Open index.html in it. IIIF: {made.Manifest}");
            return 0;
        });
        return command;
    }
}
