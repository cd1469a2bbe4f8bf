using System.Globalization;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Analysis.Tests.Support;

/// <summary>Photographs for alignment, in a folder that goes away with the test.</summary>
internal sealed class TestPairs : IDisposable
{
    private readonly TempFolder _folder = new();
    private readonly List<PyramidFile> _open = [];

    public PairImage Float(params Plane[] bands) => Open(TestTiff.WriteFloat(Next(), bands));

    public PairImage Bits16(params Plane[] bands) => Open(TestTiff.Write16(Next(), bands));

    public PairImage Bits8(params Plane[] bands) => Open(TestTiff.Write8(Next(), bands));

    /// <summary>Any image file.</summary>
    public PairImage Open(string path)
    {
        using var image = ImageFile.Open(path);
        var pyramid = Next();
        PyramidFile.Write(image, pyramid, null, TestContext.Current.CancellationToken);
        _open.Add(PyramidFile.Open(pyramid));
        return new PairImage(Path.GetFileName(path), _open[^1], Bands.Count(image.Facts));
    }

    public static PairAlignment Align(PairImage reference, PairImage moving, MapModel? model = null, int threads = -1, SearchDepth depth = SearchDepth.Everywhere) =>
        PairAligner.Align(AlignmentTarget.OfPixels(reference), moving, new PairOptions(model, Depth: depth), new ParallelOptions { MaxDegreeOfParallelism = threads });

    /// <summary>How far a map puts pixels from where they belong: on a lattice over the moving photograph, where the reference shows it.</summary>
    public static double[] Errors(PlaneMap found, Func<Point2, Point2> truth, PairImage reference, PairImage moving)
    {
        double[] errors = [.. from j in Enumerable.Range(0, 24)
                              from i in Enumerable.Range(0, 24)
                              let p = new Point2((i + 0.37) / 24 * moving.File.Width, (j + 0.61) / 24 * moving.File.Height)
                              let q = truth(p)
                              where q.X >= 0 && q.Y >= 0 && q.X < reference.File.Width && q.Y < reference.File.Height
                              select found.ToPlane(p).DistanceTo(q)];
        Assert.True(errors.Length > 50, $"{errors.Length} places");
        return [.. errors.Order()];
    }

    public static void Say(string what, PairAlignment found, double[] errors) => TestContext.Current.SendDiagnosticMessage(string.Create(CultureInfo.InvariantCulture,
        $"{what}: {found.Verdict} {found.Model} {found.Kind}; error median {errors[errors.Length / 2]:0.0000}, p95 {errors[errors.Length * 95 / 100]:0.0000}, max {errors[^1]:0.0000} px; held out {found.HeldOut?.Agreeing}/{found.HeldOut?.Patches} median {found.HeldOut?.Median:0.0000}; {found.Stages.Sum(s => s.Seconds):0.0} s"));

    public void Dispose()
    {
        foreach (var file in _open) file.Dispose();
        _folder.Dispose();
    }

    private string Next() => _folder[Guid.NewGuid().ToString("N")];
}
