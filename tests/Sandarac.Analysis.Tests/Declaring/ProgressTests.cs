using Sandarac.Analysis.Brushwork;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Tests.Relief;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Declaring;

public class ProgressTests
{
    [Fact]
    public void A_part_of_a_run_says_how_far_the_whole_is()
    {
        using var scene = new ReliefScene();
        var images = scene.Photographs(ReliefScene.Ring(3), boards: false);
        var heard = new Heard();
        var run = new Run(heard, images, TestContext.Current.CancellationToken);
        foreach (var (_, image) in images) image.Image.Dispose();
        run.Report(0.1);
        run.Begin(0.2, 0.6);
        run.Report(0.5);
        run.Begin(0.6, 1);
        run.Report(1);
        Assert.Equal([0.1, 0.2, 0.4, 0.6, 1], heard.Values.Select(v => Math.Round(v, 9)));
    }

    /// <summary>Passes over photographs come first and are not the end: what is integrated and sought afterwards takes longer.</summary>
    [Fact]
    public void A_run_of_several_passes_ends_once()
    {
        using var scene = new ReliefScene();
        var images = scene.Photographs(ReliefScene.Ring(4));
        var heard = new Heard();
        new BrushworkReading().Run(new Run(heard, images, TestContext.Current.CancellationToken));
        foreach (var (_, image) in images) image.Image.Dispose();
        Assert.Equal(1, heard.Values[^1], 9);
        Assert.Single(heard.Values, v => v > 0.999);
    }

    private sealed class Heard : IProgress<double>
    {
        public List<double> Values { get; } = [];

        public void Report(double value)
        {
            lock (Values) Values.Add(value);
        }
    }

    private sealed class Run(IProgress<double> progress, (string Slot, InputImage Image)[] images, CancellationToken cancellation) : RunContext(new BrushworkReading().Declaration,
        Arguments.Resolve(new BrushworkReading().Declaration, new Dictionary<string, string>()), images.GroupBy(i => i.Slot).ToDictionary(g => g.Key, g => (IReadOnlyList<InputImage>)[.. g.Select(i => i.Image)]), progress, cancellation)
    {
        protected override IRasterWriter CreateRaster(RasterOutput output, int width, int height, PixelScale? scale) => new Nowhere();
    }

    private sealed class Nowhere : IRasterWriter
    {
        public void WriteWindow(int left, int top, IReadOnlyList<Plane> bands)
        {
        }
    }
}
