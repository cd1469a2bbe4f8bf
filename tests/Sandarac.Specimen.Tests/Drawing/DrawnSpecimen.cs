using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Tests.Drawing;

/// <summary>One specimen at the coarsest resolution, drawn once for all tests that look at it, and deleted afterwards.</summary>
public sealed class DrawnSpecimen : IDisposable
{
    public const double PixelsPerInch = 40;

    private readonly Dictionary<string, Plane[]> _read = [];

    public DrawnSpecimen() => SpecimenDrawing.Draw(new SpecimenSettings(PixelsPerInch, Threads: 2, WithCsv: true), Folder, null,
        TestContext.Current.CancellationToken);

    public string Folder { get; } = Directory.CreateTempSubdirectory("sandarac-specimen-").FullName;

    public string Photograph(string name) => Path.Combine(Folder, "photographs", name);

    public string Truth(string name) => Path.Combine(Folder, "truth", name);

    public JsonElement Json(string name) => JsonDocument.Parse(File.ReadAllText(Truth(name))).RootElement;

    public Plane[] Read(string path)
    {
        if (_read.TryGetValue(path, out var planes)) return planes;
        using var file = ImageFile.Open(path);
        return _read[path] = file.ReadWindow(0, 0, file.Facts.Width, file.Facts.Height);
    }

    /// <summary>The map written in poses.json, read back as any program would.</summary>
    public HomographyMap Pose(string name)
    {
        var p = Json("poses.json").GetProperty("photographs").EnumerateArray().Single(e => e.GetProperty("file").GetString() == name);
        double[] h = [.. p.GetProperty("pixelToPlane").EnumerateArray().Select(v => v.GetDouble())];
        var c = p.GetProperty("centre");
        return new HomographyMap(h, new Point2(c[0].GetDouble(), c[1].GetDouble()), p.GetProperty("radius").GetDouble(),
            p.GetProperty("k1").GetDouble(), p.GetProperty("k2").GetDouble());
    }

    /// <summary>Mean linear signal, relative to the flat-field frame when there is one, over the places (mm) that <paramref
    /// name="wanted"/> chooses.</summary>
    public double Mean(string name, string? flat, int band, Func<double, double, bool> wanted)
    {
        var (image, under, map) = (Read(Photograph(name))[band], flat is null ? null : Read(Photograph(flat))[band], Pose(name));
        var colour = Read(Photograph(name)).Length == 3;
        var (sum, n) = (0.0, 0);
        for (var y = 0; y < image.Height; y++)
            for (var x = 0; x < image.Width; x++)
            {
                var mm = map.ToPlane(new Point2(x + 0.5, y + 0.5));
                if (!wanted(mm.X, mm.Y)) continue;
                sum += Linear(image[x, y], colour) / (under is null ? 1 : Linear(under[x, y], colour));
                n++;
            }
        Assert.True(n > 0, "no pixel there");
        return sum / n;
    }

    /// <summary>Value of a mask at a place, 0 to 1; 0 outside.</summary>
    public Func<double, double, double> Mask(string name)
    {
        var mask = Read(Truth($"masks/{name}.tif"))[0];
        const double mm = 25.4 / PixelsPerInch;
        return (x, y) => x < 0 || y < 0 || x >= mask.Width * mm || y >= mask.Height * mm ? 0 : mask[(int)(x / mm), (int)(y / mm)] / 255;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static double Linear(float code, bool colour) => colour ? Encoding16.FromSrgb(code / 65535) : Math.Pow(code / 65535, 2.2);
}
