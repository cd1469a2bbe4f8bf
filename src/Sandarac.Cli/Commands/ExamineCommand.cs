using System.CommandLine;
using Sandarac.Cli.Output;
using Sandarac.Studio;

namespace Sandarac.Cli.Commands;

internal static class ExamineCommand
{
    public static Command Create()
    {
        var folder = new Argument<DirectoryInfo>("FOLDER") { Description = "The folder with the painting's photographs; a photographs.csv in it states what their names do not." };
        var title = new Option<string?>("--title") { Description = "What the painting is called; the folder's name when not given." };
        var technique = new Option<string?>("--technique") { Description = "\"oil on oak\"." };
        var height = new Option<double?>("--height-mm") { Description = "Height of the painted face in mm, as measured.", HelpName = "MM" };
        var width = new Option<double?>("--width-mm") { Description = "Width of the painted face in mm, as measured.", HelpName = "MM" };
        var cornersOnly = new Option<bool>("--corners-only") { Description = "Align by the painted face's corners alone: faster, less close; plates and details stay off the plane." };
        var lens = LensOption.Create("Frame of a flat chessboard: photographs as large as it are put on the plane by their corners through its lens. Several times for several frames.");
        var open = new Option<bool>("--open") { Description = "Open the Easel when it is done." };
        var studio = new StudioOption();
        var command = new Command("examine", "Take in a folder of photographs: store, align, read, and write the first document.") { folder, title, technique, height, width, cornersOnly, lens, open };
        studio.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            using var opened = studio.Open(parsed);
            var options = new ExamineOptions
            {
                Title = parsed.GetValue(title), Technique = parsed.GetValue(technique), HeightMm = parsed.GetValue(height), WidthMm = parsed.GetValue(width), CornersOnly = parsed.GetValue(cornersOnly),
                Lens = parsed.GetRequiredValue(lens),
            };
            var examination = await Examine(opened, parsed.GetRequiredValue(folder).FullName, options, cancellation);
            if (parsed.GetValue(open)) return await OpenCommand.Serve(opened, OpenCommand.DefaultPort, $"/paintings/{examination.Painting.Id}/easel", true, cancellation);
            Say.Line($"To look at it: sandarac open --studio {opened.Folder}");
            return 0;
        });
        return command;
    }

    public static async Task<Examination> Examine(OpenStudio studio, string folder, ExamineOptions options, CancellationToken cancellation)
    {
        var examination = await Say.WithProgress("Examining", report => new Examining(studio).Examine(folder, options,
            new SynchronousProgress<ExamineProgress>(p => report(p.Done, $"{p.Step} {p.Item}")), cancellation));
        ExaminationTable.Write(examination);
        return examination;
    }
}
