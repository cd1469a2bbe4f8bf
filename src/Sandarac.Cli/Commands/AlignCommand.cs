using System.CommandLine;
using System.Text.Json;
using System.Text.Json.Serialization;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Cli.Output;
using Sandarac.Imaging;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac align</c>: one image onto another, on bare files.</summary>
internal static class AlignCommand
{
    private static readonly JsonSerializerOptions Json = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true,
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals, Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };

    public static Command Create()
    {
        var reference = new Argument<FileInfo>("REFERENCE") { Description = "The image that stays." };
        var moving = new Argument<FileInfo>("MOVING") { Description = "The image that is brought onto it: another light, another scale, turned, mirrored, a part." };
        var output = new Option<string?>("--out") { Description = "Write the moving image on the reference's grid, its depth kept.", HelpName = "OUT.tif" };
        var pointsIn = new Option<string?>("--points") { Description = "A CSV with a header and x,y in moving pixels; (0,0) is the outer corner of the first pixel.", HelpName = "IN.csv" };
        var pointsOut = new Option<string?>("--points-out") { Description = "Write those points in reference pixels.", HelpName = "OUT.csv" };
        var model = new Option<string>("--model") { Description = $"{string.Join(", ", ModelNames.All)}; the default lets held-out patches choose.", DefaultValueFactory = _ => ModelNames.Automatic };
        var lens = LensOption.Create("Frame of a flat chessboard by the moving image's camera, as large as it: its lens is held. Several times for several frames.");
        var json = new Option<bool>("--json") { Description = "Print the result as JSON." };
        var command = new Command("align", "Align one image to another, in any two lights, and say how well.") { reference, moving, output, pointsIn, pointsOut, model, lens, json };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (parsed.GetValue(pointsIn) is null != parsed.GetValue(pointsOut) is null)
                throw new InputProblem("points", "--points", "Points are read and written together.", "Give both --points IN.csv and --points-out OUT.csv.");
            var request = new BareAlignmentRequest(parsed.GetRequiredValue(reference).FullName, parsed.GetRequiredValue(moving).FullName, parsed.GetValue(output),
                parsed.GetValue(pointsIn), parsed.GetValue(pointsOut), ModelNames.Parse(parsed.GetRequiredValue(model)), parsed.GetValue(lens));
            var result = await Say.WithProgress("Aligning", report => BareAlignment.Run(request, new SynchronousProgress<double>(d => report(d, "")), cancellation));
            Console.WriteLine(parsed.GetValue(json) ? JsonSerializer.Serialize(result, Json) : AlignmentTable.Of(result));
            return 0;
        });
        return command;
    }
}
