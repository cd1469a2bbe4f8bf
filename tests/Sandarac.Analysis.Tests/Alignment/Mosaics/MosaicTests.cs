using Sandarac.Analysis.Alignment.Mosaics;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Mosaics;

/// <summary>Tiles of a texture whose every value is known: places, values and seams.</summary>
public class MosaicTests
{
    [Fact]
    public void Known_tiles_with_a_reference() => Check(withReference: true);

    [Fact]
    public void Known_tiles_without_a_reference_lie_round_the_first() => Check(withReference: false);

    [Fact]
    public void Invalid_a_tile_of_another_painting_is_left_out_and_said()
    {
        using var folder = new TempFolder();
        var (outcome, rasters) = Run(folder, false, [MosaicScene.Tile(0), new Texture(99).Photograph(MosaicScene.Side, MosaicScene.Side), MosaicScene.Tile(1)]);
        var warning = Assert.Single(outcome.Warnings);
        Assert.Equal("part-left-out", warning.Code);
        Assert.Contains("part1", warning.Message, StringComparison.Ordinal);
        Assert.Equal(2, outcome.Figures.Single(f => f.Name == "parts-placed").Value);
        Assert.True(float.IsNaN(rasters["placement"][0][0, 1]));
        Assert.True(float.IsFinite(rasters["placement"][0][0, 2]));
    }

    [Fact]
    public void Invalid_two_tiles_that_do_not_overlap_have_no_answer()
    {
        using var folder = new TempFolder();
        var apart = MosaicScene.Painting.Photograph(MosaicScene.Side, MosaicScene.Side, p => new Point2(p.X + 2000, p.Y));
        var (outcome, rasters) = Run(folder, false, [MosaicScene.Tile(0), apart]);
        Assert.NotNull(outcome.NoAnswer);
        Assert.Empty(rasters);
    }

    private static (Outcome Outcome, Dictionary<string, Plane[]> Rasters) Run(TempFolder folder, bool withReference, IReadOnlyList<Plane> tiles)
    {
        List<(string, InputImage)> images = [.. tiles.Select((t, i) => ("parts", MosaicScene.Image(folder, $"part{i}.tif", t)))];
        if (withReference) images.Add(("reference", MosaicScene.Image(folder, "whole.tif", MosaicScene.Painting.Photograph(MosaicScene.WholeWidth, MosaicScene.WholeHeight))));
        return TestRun.Of(new MosaicReading(), images);
    }

    private static void Check(bool withReference)
    {
        using var folder = new TempFolder();
        var (outcome, rasters) = Run(folder, withReference, [.. Enumerable.Range(0, 4).Select(MosaicScene.Tile)]);
        Assert.Null(outcome.NoAnswer);
        Assert.Empty(outcome.Warnings);
        var found = Enumerable.Range(0, 4).Select(i => new HomographyMap([.. rasters["placement"][0].Row(i).ToArray().Select(v => (double)v)])).ToList();
        // Without a reference all is told in the first part's pixels.
        Point2 True(int i, Point2 p) => withReference ? MosaicScene.Places[i].ToPlane(p) : MosaicScene.Places[0].ToPixel(MosaicScene.Places[i].ToPlane(p));
        var worst = Enumerable.Range(0, 4).Max(i => Corners().Max(p => found[i].ToPlane(p).DistanceTo(True(i, p))));
        var values = Compare(rasters["mosaic"][0], withReference ? default : Corner(found));
        TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant(
            $"reference {withReference}: farthest corner {worst:0.0000} px; values median {values.Median:0.00000}, p99 {values.P99:0.00000}, worst {values.Worst:0.00000} of the range; worst at seams {values.Seams:0.00000}; {string.Join(" ", outcome.Figures.Select(f => $"{f.Name} {f.Value:0.####}"))}"));
        Assert.InRange(worst, 0, 0.1);
        // Factors that were held near 1 left 0.0022 at the median and 0.018 at p99; the detail of two parts, each with its own sampling, leaves 0.012 at seams.
        Assert.InRange(values.Median, 0, 0.001);
        Assert.InRange(values.P99, 0, 0.008);
        Assert.InRange(values.Seams, 0, 0.013);
        if (withReference) Assert.Equal((MosaicScene.WholeWidth, MosaicScene.WholeHeight), (rasters["mosaic"][0].Width, rasters["mosaic"][0].Height));
        if (withReference) Assert.All([(1, 1), (768, 1), (1, 763), (768, 763)], c => Assert.True(float.IsNaN(rasters["mosaic"][0][c.Item1, c.Item2])));
    }

    /// <summary>
    /// How far the mosaic is from the texture, as parts of its range (six standard deviations), after one factor and one offset for all, which no overlap can tell:
    /// everywhere well inside, and where parts change over, along the lines half-way between tiles.
    /// </summary>
    private static (double Median, double P99, double Worst, double Seams) Compare(Plane mosaic, Point2 origin)
    {
        // The first part's pixels begin at (12, 10) of the whole; it is neither turned nor scaled.
        var shift = origin == default ? default : new Point2(origin.X + 12, origin.Y + 10);
        var truth = MosaicScene.Painting.Photograph(mosaic.Width, mosaic.Height, p => new Point2(p.X + shift.X, p.Y + shift.Y));
        var inside = (from y in Enumerable.Range(0, mosaic.Height) from x in Enumerable.Range(0, mosaic.Width)
                      let p = new Point2(x + 0.5 + shift.X, y + 0.5 + shift.Y)
                      where p.X is > 30 and < 725 && p.Y is > 30 and < 725
                      select (P: p, Truth: (double)truth[x, y], Value: (double)mosaic[x, y])).ToList();
        Assert.True(inside.Count > 200_000);
        Assert.All(inside, i => Assert.True(double.IsFinite(i.Value)));
        var (mt, mv) = (inside.Average(i => i.Truth), inside.Average(i => i.Value));
        var slope = inside.Sum(i => (i.Truth - mt) * (i.Value - mv)) / inside.Sum(i => (i.Truth - mt) * (i.Truth - mt));
        var off = inside.Select(i => (i.P, Off: Math.Abs((i.Value - mv) / slope - (i.Truth - mt)) / (6 * Texture.Deviation))).ToList();
        var sorted = off.Select(o => o.Off).Order().ToList();
        return (sorted[sorted.Count / 2], sorted[sorted.Count * 99 / 100], sorted[^1], off.Where(o => Math.Abs(o.P.X - 384) < 3 || Math.Abs(o.P.Y - 380) < 3).Select(o => o.Off).Order().ToList() is var s ? s[s.Count * 99 / 100] : 0);
    }

    private static Point2 Corner(IReadOnlyList<HomographyMap> maps)
    {
        var corners = maps.SelectMany(m => Corners().Select(m.ToPlane)).ToList();
        return new Point2(corners.Min(c => c.X), corners.Min(c => c.Y));
    }

    private static IEnumerable<Point2> Corners() => [new(0, 0), new(MosaicScene.Side, 0), new(MosaicScene.Side, MosaicScene.Side), new(0, MosaicScene.Side)];
}
