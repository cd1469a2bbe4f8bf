using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using Sandarac.Materials;
using Sandarac.Materials.Safety;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Decisions.Drawing;
using Spectre.Console;

namespace Sandarac.Cli.Output;

/// <summary>Solvents and mixtures on standard output.</summary>
internal static class SolventOutput
{
    public static JsonSerializerOptions Json { get; } = new(JsonSerializerDefaults.Web) { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Text(HansenParameters? h) => h is null ? "" : string.Create(CultureInfo.InvariantCulture, $"{h.Dispersion:0.0#} / {h.Polar:0.0#} / {h.Hydrogen:0.0#}");

    public static string Text(TeasFractions? t) => t is null ? "" : string.Create(CultureInfo.InvariantCulture, $"{t.Dispersion:0.#} / {t.Polar:0.#} / {t.Hydrogen:0.#}");

    /// <summary>A table; a file or a pipe has no width of its own, and eighty columns would break every word.</summary>
    public static void Write(Table table)
    {
        if (Console.IsOutputRedirected) AnsiConsole.Profile.Width = 200;
        AnsiConsole.Write(table);
    }

    /// <summary>Cautions, those that were not verified marked so.</summary>
    public static void Write(IReadOnlyList<Caution> cautions)
    {
        foreach (var c in cautions) Console.WriteLine($"{(c.Subject.Length > 0 ? $"{c.Subject}: " : "")}{c.Text}{(c.IsUnverified ? " [not verified]" : "")}");
    }

    /// <summary>What the JSON of a mixture holds.</summary>
    public static object View(Mixture mixture, Answer<EvaporationDrift> drift) => new
    {
        Parts = mixture.Parts.Select(p => new { p.Solvent.Name, Percent = 100 * p.Fraction }),
        Teas = mixture.Teas, mixture.Hansen, TeasFromHansen = mixture.Hansen.Value?.Teas, mixture.Hansen.Value?.Total, RoutesNote = mixture.Routes?.Note,
        Drift = drift.Value?.Points.Select(p => new { p.EvaporatedPercent, Percent = p.Left.Parts.Select(q => 100 * q.Fraction) }), NoDrift = drift.NoAnswer, DriftCautions = drift.Value?.Cautions,
        Cautions = SafetyCautions.For(mixture),
    };

    /// <summary>Both plots of a mixture into a folder, which is made where it is not there.</summary>
    public static void WriteDrawings(string folder, SolventPlot plot)
    {
        Directory.CreateDirectory(folder);
        foreach (var (name, drawing) in new[] { ("triangle.svg", TeasTriangle.Draw(plot)), ("hansen.svg", HansenProjections.Draw(plot)) })
        {
            File.WriteAllText(Path.Combine(folder, name), drawing);
            Say.Line(Path.Combine(folder, name));
        }
    }
}
