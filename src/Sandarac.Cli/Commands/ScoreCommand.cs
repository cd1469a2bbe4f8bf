using System.CommandLine;
using System.Globalization;
using Sandarac.Specimen.Scoring;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac score</c>: places that any program found on a specimen, against its truth.</summary>
internal static class ScoreCommand
{
    public static Command Create()
    {
        var specimen = new Argument<string>("SPECIMEN") { Description = "A folder that `sandarac specimen` drew, with its truth." };
        var zones = new Argument<string>("ZONES") { Description = "GeoJSON features in mm from the upper left corner of the painted face, y down, each with a property \"kind\": later-addition, veiled-addition, earlier-cleaning or varnish-gap." };
        var command = new Command("score", "Compare places that any program found on a specimen with what is true of it.") { specimen, zones };
        command.SetAction(parsed =>
        {
            Write(SpecimenScore.Of(parsed.GetRequiredValue(specimen), FoundZones.Read(parsed.GetRequiredValue(zones))));
            return 0;
        });
        return command;
    }

    private static void Write(SpecimenScore score)
    {
        Console.WriteLine($"{"",-28} {"area: precision",15} {"recall",8} {"F1",8} {"overlap",8} {"places right",14} {"objects hit",12} {"F1",8}");
        Line("later additions, all", score.Additions);
        Line("over varnish", score.Over);
        Line("under varnish", score.Under);
        Line("earlier cleaning", score.Cleaning);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"The painter's own dark paint taken for later: {100 * score.FalseOnDark:0.00} % of its area"));
    }

    private static void Line(string what, ZoneScore s) => Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
        $"{what,-28} {s.AreaPrecision,15:0.000} {s.AreaRecall,8:0.000} {s.AreaF1,8:0.000} {s.Overlap,8:0.000} {$"{s.RightPlaces} of {s.Places}",14} {$"{s.HitObjects} of {s.Objects}",12} {s.ObjectF1,8:0.000}"));
}
