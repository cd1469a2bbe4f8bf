using Sandarac.Specimen.Cameras;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Lighting;
using Sandarac.Specimen.Output;
using Sandarac.Specimen.Scene;

namespace Sandarac.Specimen.Truth;

/// <summary>Writes what only the specimen's maker can know, in forms that any program reads: JSON and plain TIFF.</summary>
internal static class TruthFolder
{
    private static readonly string[] Bands = ["R", "G", "B", "IR"];

    /// <summary>Height, masks, marks of the brush and the list of layers.</summary>
    public static void WritePlane(Painted painted, string folder, ParallelOptions options)
    {
        var grid = painted.Canvas.Grid;
        Write<float>(Path.Combine(folder, "height_um.tif"), painted.Canvas.Height, grid, 4);
        var masks = Directory.CreateDirectory(Path.Combine(folder, "masks")).FullName;
        foreach (var mask in painted.Masks)
        {
            options.CancellationToken.ThrowIfCancellationRequested();
            Write<byte>(Path.Combine(masks, FileName(mask.Name)), mask.Data, grid, 1);
        }
        WholeFile.WriteJson(Path.Combine(folder, "masks.json"), new
        {
            mmPerPixel = grid.MmPerPixel, width = grid.Width, height = grid.Height,
            masks = painted.Masks.Select(m => new { file = "masks/" + FileName(m.Name), name = m.Name, meaning = m.Meaning,
                areaMm2 = Math.Round(Area(m, grid), 2) }),
        });
        Write<float>(Path.Combine(folder, "topmost_mark.tif"), painted.Canvas.Topmost, grid, 4);
        WholeFile.WriteJsonLines(Path.Combine(folder, "marks.jsonl"), painted.Marks.Select((m, n) => MarkOf(n + 1, m, grid)));
        WriteLayers(painted, folder);
    }

    private static object MarkOf(int number, LaidMark mark, PlaneGrid grid) => new
    {
        number, passage = mark.Passage, widthMm = Math.Round(mark.Stroke.Hand.WidthMm, 2), loadUm = Math.Round(mark.Stroke.Hand.LoadUm, 1),
        furrowMm = Math.Round(mark.Stroke.Hand.WidthMm / Strokes.Bristles.CountOf(mark.Stroke.Hand, grid.MmPerPixel), 3),
        pathMm = mark.Stroke.Path.Select(p => new[] { Math.Round(p.X, 2), Math.Round(p.Y, 2) }),
    };

    /// <summary>Poses, the chart's colours and the page that explains everything.</summary>
    public static void WriteSession(SpecimenSettings settings, Painted painted, IReadOnlyList<Exposure> taken, string folder)
    {
        WholeFile.WriteJson(Path.Combine(folder, "poses.json"), new
        {
            plane = new { widthMm = SpecimenPainting.WidthMm, heightMm = SpecimenPainting.HeightMm,
                mmPerPixel = painted.Canvas.Grid.MmPerPixel },
            seed = settings.Seed, pixelsPerInch = settings.PixelsPerInch, photographs = taken.Select(PoseOf),
        });
        WholeFile.WriteJson(Path.Combine(folder, "chart.json"), new
        {
            source = "colours chosen for this specimen; no maker's chart", illuminant = "D50", observer = "2 degrees",
            patches = Chart.Patches.Select((p, n) => new { n = n + 1, lab = new[] { p.L, p.A, p.B }, leftMm = Chart.Box(n).X,
                topMm = Chart.Box(n).Y, sideMm = Chart.Box(n).Side }),
            scale = new { zeroXMm = Chart.Scale.X, topMm = Chart.Scale.Y, lengthMm = Chart.Scale.LengthMm, tickMm = 1 },
            square = new { middleXMm = Chart.Square.X, middleYMm = Chart.Square.Y, sideMm = Chart.Square.Side, degrees = Chart.Square.Degrees },
        });
        WholeFile.WriteText(Path.Combine(folder, "README.md"), TruthReadme.Text);
        WholeFile.WriteText(Path.Combine(folder, "not-evidence.txt"), "What lies here is known because the painting was invented. An examination leaves this folder out.\n");
    }

    private static void WriteLayers(Painted painted, string folder) => WholeFile.WriteJson(Path.Combine(folder, "layers.json"), new
    {
        cellMm = painted.Canvas.Grid.MmPerPixel * LayerMap.StepFor(painted.Canvas.Grid),
        layers = painted.Layers.Select(l => new
        {
            number = l.Number, name = l.Name, meaning = l.Meaning, coveredShare = Math.Round(l.CoveredShare, 5),
                meanUm = Math.Round(l.MeanUm, 3), maxUm = Math.Round(l.MaxUm, 2),
            paint = new
            {
                recipe = l.Paint.Recipe.Select(r => new { body = r.Body, share = Math.Round(r.Share, 3) }),
                bands = Bands,
                absorptionPerUm = Four(i => l.Paint.K[i]), scatteringPerUm = Four(i => l.Paint.S[i]),
                    thickLayerReflectance = Four(i => l.Paint.Masstone(i)),
                luminescenceRgb = Four(i => l.Paint.Luminescence[i])[..3], uvAbsorptionPerUm = l.Paint.UvOpacity,
                    xrayAttenuationPerUm = l.Paint.XrayPerUm,
            },
            sites = painted.Sites.ToDictionary(s => s.Key.Name, s => Math.Round(s.Value[l.Number - 1].Um.Average(), 3)),
        }),
        fingerprint = new { xMm = HandTraces.Finger.Centre.X, yMm = HandTraces.Finger.Centre.Y, halfWidthMm = HandTraces.Finger.Rx,
            halfHeightMm = HandTraces.Finger.Ry },
        visibleLeakInLuminescence = Four(i => Lights.Leak[i])[..3],
    });

    private static object PoseOf(Exposure e) => new
    {
        file = e.FileName, light = e.Light, subject = e.Subject, width = e.Pose.Width, height = e.Pose.Height,
            pixelsPerInch = e.PixelsPerInch,
        pixelToPlane = e.Pose.Map.PixelToPlane, centre = new[] { e.Pose.Map.Centre.X, e.Pose.Map.Centre.Y }, radius = e.Pose.Map.Radius,
            k1 = e.Pose.Map.K1, k2 = e.Pose.Map.K2,
        corners = e.Pose.Corners.Select(c => new[] { c.X, c.Y }), lampAzimuthDeg = e.LampAzimuth, lampElevationDeg = e.LampElevation,
        gain = e.Gain, vignette = e.Vignette, blurPixels = e.BlurPixels, fullWellElectrons = e.FullWell, readNoiseElectrons = e.ReadNoise,
            colourMatrix = e.ColourMatrix,
        lampFallOffAtCorners = Pose.PlaneCorners.Select(c => Math.Round(e.Lamps((float)c.X, (float)c.Y), 4)),
    };

    private static double[] Four(Func<int, double> value) => [.. Enumerable.Range(0, 4).Select(i => Math.Round(value(i), 6))];

    private static double Area(Mask mask, PlaneGrid grid) => mask.Data.Sum(v => (long)v) / 255.0 * grid.MmPerPixel * grid.MmPerPixel;

    private static string FileName(string name) => name.Replace(' ', '_') + ".tif";

    private static void Write<T>(string path, T[] data, PlaneGrid grid, int bytes) where T : unmanaged
    {
        using var file = new TiffFile(path, new TiffLayout(grid.Width, grid.Height, 1, bytes, typeof(T) == typeof(float), 25.4
            / grid.MmPerPixel));
        // In blocks: a span of bytes holds 2 GB at most.
        const int rows = 256;
        for (var y = 0; y < grid.Height; y += rows) file.WriteRows<T>(y, data.AsSpan(y * grid.Width, Math.Min(rows, grid.Height - y)
            * grid.Width));
        file.Commit();
    }
}
