using System.Text.Json;
using Sandarac.Benchmarks.Alignment;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Benchmarks.Teaching;

/// <summary>A drawn specimen on the plane by its true maps.</summary>
internal static class SpecimenScene
{
    /// <summary>Later paint over the varnish, an earlier cleaning, paint that is dark in luminescence though original, and all other original paint.</summary>
    public static readonly IReadOnlyList<string> Classes = ["retouching", "cleaning window", "dark original", "other original"];

    /// <summary>The same with thinly covered priming told from the rest.</summary>
    public static readonly IReadOnlyList<string> WithPriming = [.. Classes, "priming visible"];

    /// <summary>A mask's pixel belongs to its phenomenon from the first share on, and to another only up to the second: what is in between is nobody's.</summary>
    private const double Surely = 0.8, Hardly = 0.1;

    private static readonly string[] Photographs = ["VIS_01.tif", "UVL_01.tif", "IR_01.tif", "RAK_E_az090_el15.tif", "RAK_S_az180_el15.tif"];

    /// <summary>Draws a specimen and lays its photographs on the plane.</summary>
    public static TaughtScene Draw(string folder, int seed)
    {
        Child.Run(Child.Sandarac("specimen", folder, "--ppi", "60", "--seed", $"{seed}"));
        using var facts = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "truth", "masks.json")));
        var mm = facts.RootElement.GetProperty("mmPerPixel").GetDouble();
        var truth = SpecimenTruth.Read(folder);
        var grid = new PlaneGrid(new Box(0, 0, mm * facts.RootElement.GetProperty("width").GetInt32(), mm * facts.RootElement.GetProperty("height").GetInt32()), mm);
        var masks = Directory.GetFiles(Path.Combine(folder, "truth", "masks")).ToDictionary(f => Path.GetFileNameWithoutExtension(f).Replace('_', ' '), MaskOf);
        return new TaughtScene([.. Photographs.Select(p => truth.LayOnPlane(folder, p, grid))], mm, masks["losses"].Width, masks["losses"].Height, name => TruthOf(name, masks));
    }

    private static bool[] TruthOf(string name, Dictionary<string, Plane> masks)
    {
        bool Is(string mask, int i) => masks[mask].Data[i] > Surely * 255;
        bool IsNot(string mask, int i) => masks[mask].Data[i] < Hardly * 255;
        bool Original(int i) => IsNot("retouching over varnish", i) && IsNot("retouching under varnish", i) && IsNot("cleaning window", i) && IsNot("losses", i);
        return [.. Enumerable.Range(0, masks["losses"].Data.Length).Select(i => name switch
        {
            "retouching" => Is("retouching over varnish", i),
            "cleaning window" => Is("cleaning window", i) && IsNot("retouching over varnish", i) && IsNot("retouching under varnish", i) && IsNot("losses", i),
            "dark original" => Original(i) && Is("dark original", i) && IsNot("priming visible", i),
            "priming visible" => Original(i) && Is("priming visible", i),
            "other original" => Original(i) && IsNot("dark original", i) && IsNot("priming visible", i),
            _ => throw new ArgumentOutOfRangeException(nameof(name)),
        })];
    }

    private static Plane MaskOf(string file)
    {
        using var image = ImageFile.Open(file);
        return image.ReadWindow(0, 0, image.Facts.Width, image.Facts.Height)[0];
    }
}
