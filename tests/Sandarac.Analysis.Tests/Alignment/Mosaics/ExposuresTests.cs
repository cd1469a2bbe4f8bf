using Sandarac.Analysis.Alignment.Mosaics;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Mosaics;

/// <summary>Parts with factors and offsets that are known: what makes them alike must undo them, but for the one exposure of all.</summary>
public class ExposuresTests
{
    private static readonly (double Factor, double Offset)[] Taken = [(1, 0), (0.8, 120), (1.25, -70), (0.9, 30)];

    [Fact]
    public void Known_factors_and_offsets_of_four_tiles_are_undone()
    {
        var places = MosaicScene.Places;
        Check(Balance(places, [.. Taken.Select((e, i) => Exposed(places[i], e))]), [0, 1, 2, 3]);
    }

    /// <summary>In a row every part has one neighbour or two: errors would add up.</summary>
    [Fact]
    public void Known_row_of_eight_does_not_drift()
    {
        HomographyMap[] places = [.. Enumerable.Range(0, 8).Select(i => new HomographyMap([1, 0, 350.0 * i, 0, 1, 0, 0, 0, 1]))];
        Check(Balance(places, [.. places.Select((p, i) => Exposed(p, Taken[i % 4]))]), [.. Enumerable.Range(0, 8).Select(i => i % 4)]);
    }

    [Fact]
    public void Extreme_a_part_that_overlaps_nothing_keeps_its_exposure()
    {
        HomographyMap[] places = [MosaicScene.Places[0], MosaicScene.Places[1], new([1, 0, 9000, 0, 1, 0, 0, 0, 1])];
        var found = Balance(places, [.. places.Select((p, i) => Exposed(p, Taken[i]))]);
        Assert.Equal(1, found[2].Factor, 1e-9);
        Assert.Equal(0, found[2].Offset, 1e-6);
    }

    private static Plane Exposed(HomographyMap place, (double Factor, double Offset) taken) =>
        MosaicScene.Painting.Photograph(MosaicScene.Side, MosaicScene.Side, place.ToPlane).Select(v => (float)(taken.Factor * v + taken.Offset));

    private static IReadOnlyList<(double Factor, double Offset)> Balance(IReadOnlyList<HomographyMap> places, IReadOnlyList<Plane> planes)
    {
        using var pairs = new TestPairs();
        var parts = places.Zip(planes, (map, plane) => new MosaicPart(pairs.Float(plane), map, null)).ToList();
        return Exposures.Balance(parts, [.. parts.Select(p => TileBorder.Inside(p.Image))]);
    }

    /// <summary>Balanced values of one place in two parts differ by less than a hundredth.</summary>
    private static void Check(IReadOnlyList<(double Factor, double Offset)> found, int[] taken)
    {
        double Balanced(int part, double value) => found[part].Factor * (Taken[taken[part]].Factor * value + Taken[taken[part]].Offset) + found[part].Offset;
        for (var i = 1; i < found.Count; i++)
            foreach (var value in new[] { Texture.Mean - Texture.Deviation, Texture.Mean, Texture.Mean + Texture.Deviation })
                Assert.InRange(Balanced(i, value) / Balanced(i - 1, value), 0.99, 1.01);
        Assert.All(found, (f, i) => Assert.InRange(f.Factor * Taken[taken[i]].Factor / (found[0].Factor * Taken[taken[0]].Factor), 0.99, 1.01));
    }
}
