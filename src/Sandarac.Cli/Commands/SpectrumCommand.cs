using System.CommandLine;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Files;
using Sandarac.Cli.Output;
using Sandarac.Studio.Datings.Drawing;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac spectrum</c>: peaks and elements of an X-ray fluorescence spectrum, on a bare file.</summary>
internal static class SpectrumCommand
{
    private static readonly JsonSerializerOptions Json = new(SolventOutput.Json) { Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) }, NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals };

    public static Command Create()
    {
        var file = new Argument<string>("FILE") { Description = "EMSA (.msa, ISO 22029), a table of channel or energy and counts, or counts under $DATA: (.spe)." };
        var calibrate = new Option<string[]>("--calibrate") { Description = "A line that you know and its channel, \"Fe Ka=640\"; two or more. Without: the file's scale, else one proposed from the peaks.", HelpName = "LINE=CHANNEL", Arity = ArgumentArity.ZeroOrMore, AllowMultipleArgumentsPerToken = true };
        var anode = new Option<string?>("--anode") { Description = "Metal of the tube's anode, Rh; its own lines are then told from the painting's.", HelpName = "SYMBOL" };
        var kv = new Option<double?>("--kv") { Description = "Voltage of the tube; the file's without it.", HelpName = "KV" };
        var beam = new Option<double?>("--beam") { Description = "Energy of a beam of one energy instead of a tube.", HelpName = "KEV" };
        var fwhm = new Option<double?>("--fwhm") { Description = "The detector's width at manganese Ka; estimated without it.", HelpName = "EV" };
        var output = new Option<string?>("--out") { Description = "Folder for figures.json and spectrum.svg.", HelpName = "DIR" };
        var json = new Option<bool>("--json") { Description = "Print figures.json instead of tables." };
        var command = new Command("spectrum", "Read an XRF spectrum: energy scale, background, peaks, and the elements that its lines need, with how sure each is.") { file, calibrate, anode, kv, beam, fwhm, output, json };
        command.SetAction(parsed =>
        {
            var settings = new SpectrumSettings
            {
                Calibration = [.. (parsed.GetValue(calibrate) ?? []).Select(KnownLine.Parse)], Anode = parsed.GetValue(anode), TubeKv = parsed.GetValue(kv), BeamKev = parsed.GetValue(beam), FwhmEv = parsed.GetValue(fwhm),
            };
            var path = parsed.GetRequiredValue(file);
            var result = SpectrumAnalysis.Run(SpectrumFile.Read(path), settings);
            var text = JsonSerializer.Serialize(View(result, path), Json);
            if (parsed.GetValue(output) is { } folder) WriteFiles(folder, text, result);
            if (parsed.GetValue(json)) Console.WriteLine(text);
            else SpectrumTable.Write(result);
        });
        return command;
    }

    /// <summary>What figures.json holds: all figures, and what it takes to make them again.</summary>
    private static object View(SpectrumResult r, string path) => new
    {
        Analysis = "spectrum", r.Version, Software = RunRecord.Software, File = Path.GetFileName(path), Sha256 = Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path))), r.Settings,
        r.Title, r.Calibration, CalibrationResidualEv = r.Calibration.ResidualEv, r.FwhmEv, r.LimitKev, r.Peaks, r.Elements, r.Warnings, Caution = SpectrumResult.Caution,
    };

    private static void WriteFiles(string folder, string text, SpectrumResult result)
    {
        Directory.CreateDirectory(folder);
        foreach (var (name, content) in new[] { ("figures.json", text), ("spectrum.svg", SpectrumDrawing.Draw(result)) })
        {
            File.WriteAllText(Path.Combine(folder, name), content);
            Say.Line(Path.Combine(folder, name));
        }
    }
}
