using Sandarac.Analysis.Lights;
using Sandarac.Imaging.Formats;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Tests.Support;

/// <summary>Micrographs of three even layers in a resin, drawn by formula: 60, 20 and 30 pixels thick from the bottom up.</summary>
public static class DrawnSection
{
    public const int Width = 420, Height = 260;

    /// <summary>Thicknesses from the bottom up, pixels.</summary>
    public static readonly double[] Thickness = [60, 20, 30];

    private static readonly (double From, double Red, double Green, double Blue)[] Bands = [(-1e9, 0.60, 0.60, 0.58), (75, 0.35, 0.28, 0.20), (105, 0.75, 0.30, 0.25), (125, 0.25, 0.35, 0.55), (185, 0.60, 0.60, 0.58)];

    /// <summary>Adds one to a painting.</summary>
    public static Photograph Add(TemporaryStudio home, Guid paintingId, string name, Light? under, int width = Width, int pixelsPerInch = 0)
    {
        var path = Path.Combine(home.Root, name);
        TinyTiff.Write(path, width, Height, 3, Draw(width, under), pixelsPerInch);
        using var image = ImageFile.Open(path);
        using var db = home.Studio.CreateDb();
        var target = home.Studio.Objects.NewTemporaryPath();
        File.Copy(path, target);
        var stored = home.Studio.Objects.Adopt(target, null, "image/tiff", isDerived: false);
        var photograph = new Photograph { PaintingId = paintingId, FileName = name, Sha256 = stored.Sha256, Facts = image.Facts, Light = Light.Section.Code, SectionLight = under?.Code, Subject = PhotographSubject.Sample, Sample = "S1", ImportedAt = DateTime.UtcNow };
        db.Add(stored);
        db.Add(photograph);
        db.SaveChanges();
        home.Studio.Objects.Confirm(stored.Sha256);
        return photograph;
    }

    private static ushort[] Draw(int width, Light? under)
    {
        var (random, samples) = (new Random(under == Light.Visible ? 1 : 2), new ushort[width * Height * 3]);
        for (var y = 0; y < Height; y++)
        {
            double[] light = [Of(y, b => b.Red), Of(y, b => b.Green), Of(y, b => b.Blue)];
            for (var i = 3 * y * width; i < 3 * (y + 1) * width; i++) samples[i] = (ushort)(65535 * Math.Clamp(light[i % 3] * (under == Light.Visible ? 1 : 0.6) + 0.03 * (random.NextDouble() - 0.5), 0, 1));
        }
        return samples;
    }

    /// <summary>Steps of about two pixels' width.</summary>
    private static double Of(int y, Func<(double From, double Red, double Green, double Blue), double> band) =>
        band(Bands[0]) + Enumerable.Range(1, 4).Sum(k => (band(Bands[k]) - band(Bands[k - 1])) / (1 + Math.Exp(-2 * (y + 0.5 - Bands[k].From))));
}
