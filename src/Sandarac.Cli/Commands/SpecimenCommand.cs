using System.CommandLine;
using Sandarac.Cli.Output;
using Sandarac.Imaging;
using Sandarac.Specimen;
using Sandarac.Specimen.Later;
using Sandarac.Specimen.Sections;

namespace Sandarac.Cli.Commands;

internal static class SpecimenCommand
{
    public static Command Create()
    {
        var folder = new Argument<DirectoryInfo>("FOLDER") { Description = "Where to draw: photographs/ holds what a studio would deliver, truth/ what is true of them." };
        var ppi = new Option<double>("--ppi") { Description = "Resolution in pixels per inch, 40 to 1200.", DefaultValueFactory = _ => 150 };
        var seed = new Option<int>("--seed") { Description = "Another seed gives another painting.", DefaultValueFactory = _ => 1 };
        var csv = new Option<bool>("--csv") { Description = "Also write photographs.csv, which states each photograph's light." };
        var sections = new Option<int?>("--sections") { Description = "Instead draw so many invented paint sections under the microscope, of this seed and those after it; 1 to 1000, without --ppi and --csv." };
        var electrons = new Option<bool>("--bse") { Description = "With --sections: each also by back-scattered electrons, in a frame of its own." };
        var later = new Option<LaterState?>("--later") { Description = "Instead photograph the same painting again, some years on, with another camera: changed (small damages, listed in truth/changes.json) or unchanged." };
        var command = new Command("specimen", "Draw the invented painting in every light, with its truth beside it.") { folder, ppi, seed, csv, later, sections, electrons };
        command.SetAction((parsed, cancellation) => parsed.GetValue(sections) is { } count
            ? DrawSections(parsed.GetValue(seed), Sound(count, new Option[] { ppi, csv, later }.FirstOrDefault(o => parsed.GetResult(o) is { Implicit: false })), parsed.GetRequiredValue(folder).FullName, parsed.GetValue(electrons), cancellation)
            : parsed.GetValue(electrons) ? throw new InputProblem("unknown-parameter", electrons.Name, $"{electrons.Name} says nothing of a painting.", "Leave it out, or give --sections.")
            : Draw(new SpecimenSettings(parsed.GetValue(ppi), parsed.GetValue(seed), WithCsv: parsed.GetValue(csv), Later: parsed.GetValue(later)),
            parsed.GetRequiredValue(folder).FullName, cancellation));
        return command;
    }

    public static async Task<int> Draw(SpecimenSettings settings, string folder, CancellationToken cancellation) =>
        await Say.WithProgress("Drawing the specimen", report =>
        {
            SpecimenDrawing.Draw(settings, folder, new SynchronousProgress<DrawingProgress>(p => report(p.Fraction, p.Doing)), cancellation);
            return 0;
        });

    private static int Sound(int count, Option? idle) =>
        count is < 1 or > 1000 ? throw new InputProblem("sections", "--sections", $"{count} sections cannot be drawn.", "Give a number from 1 to 1000.")
        : idle is not null ? throw new InputProblem("unknown-parameter", idle.Name, $"{idle.Name} says nothing of sections.", "Leave it out, or leave out --sections.")
        : count;

    private static async Task<int> DrawSections(int first, int count, string folder, bool electrons, CancellationToken cancellation) =>
        await Say.WithProgress("Drawing sections", report =>
        {
            for (var i = 0; i < count; i++)
            {
                SectionSpecimens.Draw(first + i, folder, electrons: electrons, cancellation: cancellation);
                report((i + 1.0) / count, $"section {first + i}");
            }
            return 0;
        });
}
