using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Tests.Support;

/// <summary>A painting whose photographs lie on the plane by construction: every value is a formula of the place in mm, so that what was made of them can be checked.</summary>
public sealed class PlaneStudio : IDisposable
{
    public const double MmPerPixel = 0.25;

    private readonly TemporaryStudio _home = new();

    /// <summary>A painting of so many pixels on its own grid.</summary>
    public PlaneStudio(int width, int height, string title = "Ferry at low water")
    {
        Painting = new Painting
        {
            Title = title, Technique = "oil on oak", WidthMm = width * MmPerPixel, HeightMm = height * MmPerPixel, SizeOrigin = ScaleOrigin.Measured, PlaneMmPerPixel = MmPerPixel, CreatedAt = DateTime.UtcNow,
        };
        using var db = Studio.CreateDb();
        db.Paintings.Add(Painting);
        db.SaveChanges();
    }

    public OpenStudio Studio => _home.Studio;

    public Painting Painting { get; }

    public string Root => _home.Root;

    /// <summary>Adds a 16-bit photograph that covers a part of the plane; its layer's id.</summary>
    /// <param name="light">Its light.</param>
    /// <param name="name">Its file's name.</param>
    /// <param name="bands">1 or 3.</param>
    /// <param name="box">What it covers, mm.</param>
    /// <param name="mmPerPixel">Its own grid.</param>
    /// <param name="value">The value at a place, mm, in a band.</param>
    public string Add(string light, string name, int bands, Box box, double mmPerPixel, Func<double, double, int, double> value)
    {
        var (width, height) = ((int)Math.Round(box.Width / mmPerPixel), (int)Math.Round(box.Height / mmPerPixel));
        var samples = new ushort[width * height * bands];
        for (int y = 0, i = 0; y < height; y++)
            for (var x = 0; x < width; x++)
                for (var b = 0; b < bands; b++) samples[i++] = (ushort)Math.Clamp(value(box.Left + (x + 0.5) * mmPerPixel, box.Top + (y + 0.5) * mmPerPixel, b), 0, 65535);
        var path = Path.Combine(Root, name);
        TinyTiff.Write(path, width, height, bands, samples);
        using var image = ImageFile.Open(path);
        using var db = Studio.CreateDb();
        var original = Store(db, target => File.Copy(path, target));
        var pyramid = Store(db, target => PyramidFile.Write(image, target));
        var facts = new PyramidFacts(pyramid, width, height, 1, SampleFormat.UInt16, bands == 3 ? ["R", "G", "B"] : ["grey"], "counts", 65535, 0, 65535);
        var photograph = new Photograph
        {
            PaintingId = Painting.Id, FileName = name, Sha256 = original, Light = light, LightConfidence = Confidence.Certain, Subject = PhotographSubject.Painting, Facts = image.Facts, ImportedAt = DateTime.UtcNow, Pyramid = facts,
        };
        db.Add(photograph);
        db.Add(new Alignment { PhotographId = photograph.Id, Version = 1, Method = AlignmentMethod.ByPairs, Verdict = Verdict.Aligned, Reason = "by construction", PlaneImage = facts, PlaneExtent = box, CreatedAt = DateTime.UtcNow });
        db.SaveChanges();
        return $"p-{photograph.Id}";
    }

    /// <summary>The same over the whole face, on the painting's own grid.</summary>
    public string AddWhole(string light, int bands, Func<double, double, int, double> value) => Add(light, $"{light}_01.tif", bands, new Box(0, 0, Painting.WidthMm, Painting.HeightMm), MmPerPixel, value);

    /// <summary>Adds a measured surface of one slope; its normals' layer's id.</summary>
    public string AddSurface(float nx, float ny)
    {
        var (width, height) = ((int)(Painting.WidthMm / MmPerPixel), (int)(Painting.HeightMm / MmPerPixel));
        using var db = Studio.CreateDb();
        var run = new Run
        {
            PaintingId = Painting.Id, Kind = RunKind.Reading, ReadingId = "relief", ReadingVersion = 1, Parameters = new Dictionary<string, string>(), Inputs = [], Key = "by construction", SoftwareVersion = "0.1.0", UserName = "marta",
            State = RunState.Done, Progress = 1, QueuedAt = DateTime.UtcNow, EndedAt = DateTime.UtcNow,
        };
        var pyramid = Store(db, target =>
        {
            using var writer = new FloatRasterWriter(target, width, height, 2);
            var (x, y) = (new Plane(width, height), new Plane(width, height));
            Array.Fill(x.Data, nx);
            Array.Fill(y.Data, ny);
            writer.WriteWindow(0, 0, [x, y]);
            writer.Complete(TestContext.Current.CancellationToken);
        });
        run.Rasters.Add(new RunRaster { RunId = run.Id, Name = "normals", Extent = new Box(0, 0, Painting.WidthMm, Painting.HeightMm), Pyramid = new PyramidFacts(pyramid, width, height, 1, SampleFormat.Float, ["x", "y"], "1", 1, -1, 1) });
        db.Add(run);
        db.SaveChanges();
        return $"r-{run.Id}-normals";
    }

    public void Dispose() => _home.Dispose();

    private string Store(StudioDb db, Action<string> write)
    {
        var path = Studio.Objects.NewTemporaryPath();
        write(path);
        var row = Studio.Objects.Adopt(path, null, "image/tiff", isDerived: true);
        if (db.Objects.Find(row.Sha256) is null) db.Add(row);
        db.SaveChanges();
        Studio.Objects.Confirm(row.Sha256);
        return row.Sha256;
    }
}
