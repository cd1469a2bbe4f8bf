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
internal sealed class SpecimenOnPlane(SpecimenFixture specimen) : IDisposable
{
    public const double MmPerPixel = 0.5;

    private readonly TempFolder _folder = new();

    /// <summary>A photograph on the plane, with the photograph it was made of.</summary>
    public InputImage Open(string name, Light light)
    {
        var (pyramid, plane, map) = (_folder[name + ".pyramid"], _folder[name], specimen.TrueMap(name));
        using (var image = ImageFile.Open(specimen.Photograph(name))) PyramidFile.Write(image, pyramid, null, TestContext.Current.CancellationToken);
        using (var source = PyramidFile.Open(pyramid))
            PlaneResampler.Write(source, map, PlaneGrid.Covering(new Box(0, 0, SpecimenPainting.WidthMm, SpecimenPainting.HeightMm), MmPerPixel), plane, cancellation: TestContext.Current.CancellationToken);
        return TestRun.Open(plane, light, MmPerPixel) with { Original = new OriginalView(pyramid, 3, map.Then(new Homography([1 / MmPerPixel, 0, 0, 0, 1 / MmPerPixel, 0, 0, 0, 1]))) };
    }

    /// <summary>A photograph in its own pixels.</summary>
    public InputImage Own(string name, Light light) => TestRun.Open(specimen.Photograph(name), light);

    /// <summary>The specimen's folder, for scoring.</summary>
    public string Folder => specimen.Folder;

    public void Dispose() => _folder.Dispose();
}
