using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;
using Sandarac.Specimen;

namespace Sandarac.Analysis.Tests.Luminescence;

/// <summary>Photographs of the specimen brought onto the plane by their true maps, in a folder that goes away with the test.</summary>
/// <param name="specimen">The specimen.</param>
/// <param name="mmPerPixel">Size of a pixel on the plane.</param>
internal sealed class SpecimenOnPlane(DrawnSpecimen specimen, double mmPerPixel = 0.5) : IDisposable
{
    private readonly TempFolder _folder = new();

    /// <summary>A photograph on the plane, with the photograph it was made of.</summary>
    public InputImage Open(string name, Light light)
    {
        var (pyramid, plane, map) = (_folder[name + ".pyramid"], _folder[name], specimen.TrueMap(name));
        using (var image = ImageFile.Open(specimen.Photograph(name))) PyramidFile.Write(image, pyramid, null, TestContext.Current.CancellationToken);
        using (var source = PyramidFile.Open(pyramid))
            PlaneResampler.Write(source, map, PlaneGrid.Covering(new Box(0, 0, SpecimenPainting.WidthMm, SpecimenPainting.HeightMm), mmPerPixel), plane, cancellation: TestContext.Current.CancellationToken);
        return TestRun.Open(plane, light, mmPerPixel) with { Original = new OriginalView(pyramid, 3, map.Then(new Homography([1 / mmPerPixel, 0, 0, 0, 1 / mmPerPixel, 0, 0, 0, 1]))) };
    }

    /// <summary>A photograph in its own pixels.</summary>
    public InputImage Own(string name, Light light) => TestRun.Open(specimen.Photograph(name), light);

    /// <summary>The specimen's folder, for scoring.</summary>
    public string Folder => specimen.Folder;

    /// <summary>Share of a phenomenon at a place, 0 to 1.</summary>
    public Func<Point2, double> Truth(string mask)
    {
        using var image = ImageFile.Open(Path.Combine(specimen.Folder, "truth", "masks", mask + ".tif"));
        var (width, height) = (image.Facts.Width, image.Facts.Height);
        var plane = image.ReadWindow(0, 0, width, height)[0];
        return mm => plane[Math.Clamp((int)(mm.X / SpecimenPainting.WidthMm * width), 0, width - 1), Math.Clamp((int)(mm.Y / SpecimenPainting.HeightMm * height), 0, height - 1)] / 255.0;
    }

    public void Dispose() => _folder.Dispose();
}
