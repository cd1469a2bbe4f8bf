using System.CommandLine;
using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Cli.Demo;
using Sandarac.Cli.Output;
using Sandarac.Specimen;
using Sandarac.Studio;

namespace Sandarac.Cli.Commands;

internal static class DemoCommand
{
    public static Command Create()
    {
        var ppi = new Option<double>("--ppi") { Description = "Resolution of the specimen, 40 to 1200.", DefaultValueFactory = _ => 150 };
        var folder = new Option<string>("--folder")
        {
            Description = "Where the demonstration keeps its photographs and its studio.",
            DefaultValueFactory = _ => Path.Combine(Path.GetDirectoryName(StudioOption.DefaultFolder)!, "demo"),
        };
        var (port, noBrowser) = (OpenCommand.PortOption(), OpenCommand.NoBrowserOption());
        var command = new Command("demo", "The main job on an invented painting: draw it, examine it, write an invented conservator's decisions, open it on the Easel.") { ppi, folder, port, noBrowser };
        command.SetAction((parsed, cancellation) => Run(
            Path.Combine(parsed.GetRequiredValue(folder), string.Create(CultureInfo.InvariantCulture, $"{parsed.GetValue(ppi)}-ppi")),
            parsed.GetValue(ppi), parsed.GetValue(port), !parsed.GetValue(noBrowser), cancellation));
        return command;
    }

    private static async Task<int> Run(string folder, double ppi, int port, bool openBrowser, CancellationToken cancellation)
    {
        using var studio = OpenStudio.At(Path.Combine(folder, "studio"));
        var painting = Finished(folder) ?? await Prepare(studio, folder, ppi, cancellation);
        return await OpenCommand.Serve(studio, port, $"/paintings/{painting}/easel", openBrowser, cancellation);
    }

    /// <summary>Draws, examines and writes what an invented conservator decided; a demonstration that was stopped half way goes on from there.</summary>
    private static async Task<Guid> Prepare(OpenStudio studio, string folder, double ppi, CancellationToken cancellation)
    {
        var specimen = Path.Combine(folder, "specimen");
        await SpecimenCommand.Draw(new SpecimenSettings(ppi), specimen, cancellation);
        var options = new ExamineOptions
        {
            Title = SpecimenPainting.Title, Technique = SpecimenPainting.Technique, HeightMm = SpecimenPainting.HeightMm, WidthMm = SpecimenPainting.WidthMm,
        };
        var examination = await ExamineCommand.Examine(studio, Path.Combine(specimen, "photographs"), options, cancellation);
        await Say.WithProgress("Writing the decisions", report =>
        {
            Story.Write(studio, examination.Painting.Id, report, cancellation);
            return 0;
        });
        await File.WriteAllTextAsync(Marker(folder), $"{RunRecord.Software} {examination.Painting.Id}", cancellation);
        return examination.Painting.Id;
    }

    /// <summary>The painting of a demonstration that this very version has finished.</summary>
    private static Guid? Finished(string folder) =>
        File.Exists(Marker(folder)) && File.ReadAllText(Marker(folder)).Split(' ') is [var version, var id] && version == RunRecord.Software
            ? Guid.Parse(id)
            : null;

    private static string Marker(string folder) => Path.Combine(folder, "finished");
}
