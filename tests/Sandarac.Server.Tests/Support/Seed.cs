using System.Runtime.InteropServices;
using NetVips;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Tests;

/// <summary>
/// A painting of 120 x 90 mm with three layers whose every value is known: a 16-bit colour photograph on the plane and in its own pixels, an
/// 8-bit one in its own pixels, and a float raster of a run. Odd sizes, so that edge tiles are padded.
/// </summary>
public sealed class Seed
{
    public const int Width = 1201, Height = 901;

    private readonly OpenStudio _studio;
    private readonly string _folder;

    public Seed(OpenStudio studio, string folder)
    {
        (_studio, _folder) = (studio, folder);
        using var db = studio.CreateDb();
        Painting = new Painting { Title = "Weir in flood", Technique = "oil on linen", WidthMm = 120.1, HeightMm = 90.1, SizeOrigin = ScaleOrigin.Measured, PlaneMmPerPixel = 0.1, CreatedAt = DateTime.UtcNow };
        db.Add(Painting);
        Deep = AddPhotograph(db, "VIS_01.tif", "VIS", Enums.BandFormat.Ushort, 3);
        Shallow = AddPhotograph(db, "UVL_01.tif", "UVL", Enums.BandFormat.Uchar, 3);
        Numbers = AddRun(db);
        db.SaveChanges();
        db.Add(new Alignment
        {
            PhotographId = Deep.Id, Version = 1, Method = "corners-found", Verdict = Verdict.Aligned, Reason = "Four straight edges were found.",
            Map = new HomographyMap([0.1, 0, 0, 0, 0.1, 0, 0, 0, 1]), Corners = [new(0, 0), new(Width, 0), new(Width, Height), new(0, Height)],
            Residuals = new Residuals(0.05, 0.11, "of 400 points on the edges"), PlaneImage = Deep.Pyramid, PlaneExtent = new Box(0, 0, 120.1, 90.1), CreatedAt = DateTime.UtcNow,
        });
        db.SaveChanges();
    }

    public Painting Painting { get; }

    public Photograph Deep { get; }

    public Photograph Shallow { get; }

    public Run Numbers { get; }

    /// <summary>The 16-bit photograph's value at a pixel.</summary>
    public static ushort DeepValue(int x, int y, int band) => (ushort)(x * 37 + y * 101 + band * 9001);

    /// <summary>The float raster's value at a pixel.</summary>
    public static float Number(int x, int y) => x * 0.25f - y;

    private Photograph AddPhotograph(StudioDb db, string name, string light, Enums.BandFormat format, int bands)
    {
        var path = Path.Combine(_folder, name);
        WriteTiff(path, format, bands);
        using var image = ImageFile.Open(path);
        var original = Store(db, target => File.Copy(path, target));
        var pyramid = Store(db, target => PyramidFile.Write(image, target));
        var levels = Levels(pyramid);
        var photograph = new Photograph
        {
            PaintingId = Painting.Id, FileName = name, Sha256 = original, Light = light, LightConfidence = Confidence.Certain,
            LightReason = $"the file's name begins with {light}", Subject = PhotographSubject.Painting, Facts = image.Facts, ImportedAt = DateTime.UtcNow,
            Pyramid = new PyramidFacts(pyramid, Width, Height, levels, image.Facts.Format, ["R", "G", "B"], "counts", image.Facts.FullScale, 0, image.Facts.FullScale),
            Warnings = [new Warning("no-icc-profile", "The file has no colour profile.")],
        };
        db.Add(photograph);
        return photograph;
    }

    private Run AddRun(StudioDb db)
    {
        var pyramid = Store(db, target =>
        {
            using var writer = new FloatRasterWriter(target, Width, Height, 1);
            var plane = new Plane(Width, Height);
            for (var y = 0; y < Height; y++) for (var x = 0; x < Width; x++) plane[x, y] = Number(x, y);
            writer.WriteWindow(0, 0, [plane]);
            writer.Complete(TestContext.Current.CancellationToken);
        });
        var run = new Run
        {
            PaintingId = Painting.Id, Kind = RunKind.Reading, ReadingId = "photograph-quality", ReadingVersion = 1, Parameters = new Dictionary<string, string>(),
            Inputs = [new RunSource("photograph", Deep.Id, Deep.FileName, Deep.Sha256, "VIS", null, null)], Key = pyramid, SoftwareVersion = "0.1.0", UserName = "marta",
            State = RunState.Done, Progress = 1, QueuedAt = DateTime.UtcNow, StartedAt = DateTime.UtcNow, EndedAt = DateTime.UtcNow,
            Figures = [new Figure("noise", 12.5, 0.7), new Figure("not-a-number", double.NaN, null, "no edge was found")],
            Warnings = [new Warning("uneven-light", "The lower right is 1.4 stops darker than the middle.")],
        };
        run.Rasters.Add(new RunRaster
        {
            RunId = run.Id, Name = "map", Extent = new Box(0, 0, 120.1, 90.1),
            Pyramid = new PyramidFacts(pyramid, Width, Height, Levels(pyramid), SampleFormat.Float, ["value"], "um", 1, -900, 300),
        });
        db.Add(run);
        return run;
    }

    private int Levels(string sha256)
    {
        using var pyramid = PyramidFile.Open(_studio.Objects.PathOf(sha256));
        return pyramid.Levels.Count;
    }

    private string Store(StudioDb db, Action<string> write)
    {
        var path = _studio.Objects.NewTemporaryPath();
        write(path);
        var row = _studio.Objects.Adopt(path, null, "image/tiff", isDerived: true);
        db.Add(row);
        db.SaveChanges();
        _studio.Objects.Confirm(row.Sha256);
        return row.Sha256;
    }

    private static void WriteTiff(string path, Enums.BandFormat format, int bands)
    {
        var pixels = new ushort[Width * Height * bands];
        for (int y = 0, i = 0; y < Height; y++) for (var x = 0; x < Width; x++) for (var b = 0; b < bands; b++) pixels[i++] = DeepValue(x, y, b);
        using var deep = Image.NewFromMemory(MemoryMarshal.AsBytes<ushort>(pixels).ToArray(), Width, Height, bands, Enums.BandFormat.Ushort);
        using var image = format == Enums.BandFormat.Ushort ? deep.Copy() : (deep / 257).Cast(format);
        image.Tiffsave(path);
    }
}
