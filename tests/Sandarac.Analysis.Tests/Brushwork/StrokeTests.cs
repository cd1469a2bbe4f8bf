using Sandarac.Analysis.Brushwork;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Brushwork;

public class StrokeTests
{
    private static readonly ParallelOptions Threads = new() { MaxDegreeOfParallelism = 2 };

    [Fact]
    public void Basins_are_parted_by_ridges_that_are_high_enough()
    {
        var plane = new Plane(9, 1, [0, 1, 0, 5, 0, 0, 9, 0, float.NaN]);
        Assert.Equal([1, 1, 1, 1, 2, 2, 2, 3, 0], Basins.Of(plane, 10, 3, 1).Labels);
        Assert.Equal(2, Basins.Of(plane, 10, 7, 1).Count);
        Assert.Equal(1, Basins.Of(plane, 10, 3, 100).Count);
    }

    /// <summary>Two bars of known place, length, breadth and direction, each with furrows along it, on a ground of another colour and no direction.</summary>
    [Fact]
    public void Drawn_strokes_are_found_with_their_length_breadth_and_direction()
    {
        const double mm = 0.2;
        var surface = Drawn(mm, [new(30, 20, 24, 5, 20), new(30, 45, 18, 4, 150)]);
        var field = DirectionField.Of(surface.SlopeX, surface.SlopeY, 1.5 / mm, Threads);
        var strokes = Strokes.Of(surface, field, surface.Height, surface.Height, new StrokeSettings(2, 4, 40), Threads);
        foreach (var (x, y, length, breadth, degrees) in new[] { (30.0, 20.0, 24.0, 5.0, 20.0), (30, 45, 18, 4, 150) })
        {
            var stroke = Assert.Single(strokes, s => s.Middle.Distance(new(x, y)) < 2);
            Assert.InRange(180 / Math.PI * Axial.Between(stroke.Angle, degrees * Math.PI / 180), 0, 1.5);
            Assert.InRange(stroke.LengthMm / length, 0.9, 1.1);
            Assert.InRange(stroke.BreadthMm / breadth, 0.9, 1.1);
            Assert.InRange(stroke.Straightness, 0.97, 1);
            Assert.Equal(0.8, stroke.FurrowMm!.Value, 0.03);
            Assert.Equal(1, stroke.Neighbours);
            Assert.Equal(0, stroke.NeighboursAlike);
        }
    }

    [Fact]
    public void An_even_ground_has_no_strokes()
    {
        var flat = new Plane(150, 150);
        var surface = new Surface(flat.AddNoise(0.01, 1), flat.AddNoise(0.01, 2), flat.AddNoise(1, 3), [.. Enumerable.Range(4, 3).Select(k => flat.AddNoise(0.3, k))], 0.2);
        Assert.Empty(Strokes.Of(surface, DirectionField.Of(surface.SlopeX, surface.SlopeY, 7, Threads), surface.Height, surface.Height, new StrokeSettings(2, 4, 40), Threads));
    }

    /// <summary>scipy.stats.mannwhitneyu, see References/Brushwork/SOURCE.md.</summary>
    [Fact]
    public void The_effect_is_Cliffs_delta() =>
        Assert.Equal(2 * 32.5 / 42 - 1, ZoneComparison.Delta([3.1, 2.2, 5.0, 4.4, 2.2, 7.9, 6.1], [1.0, 2.2, 3.3, 2.9, 0.4, 4.4]), 12);

    [Fact]
    public void Zones_painted_alike_are_hardly_ever_told_apart_and_others_are()
    {
        // Strokes of one place share half of their variance: single strokes drawn anew would find differences that are not there.
        (double, int)[] Zone(Random dice, double more) => [.. Enumerable.Range(0, 12).SelectMany(place =>
        {
            var shared = Bell(dice);
            return Enumerable.Range(0, 8).Select(_ => (more + shared + Bell(dice), place));
        })];
        var wrong = Enumerable.Range(0, 40).Count(seed => ZoneComparison.Of(Zone(new Random(seed), 0), Zone(new Random(1000 + seed), 0)) is { Low: > 0 } or { High: < 0 });
        Assert.InRange(wrong, 0, 6);
        var found = Enumerable.Range(0, 20).Count(seed => ZoneComparison.Of(Zone(new Random(seed), 2.5), Zone(new Random(1000 + seed), 0)) is { Low: > 0 });
        Assert.InRange(found, 18, 20);
        Assert.Null(ZoneComparison.Of([(1, 1), (2, 2)], Zone(new Random(1), 0)));
    }

    private static double Bell(Random dice) => Math.Sqrt(-2 * Math.Log(1 - dice.NextDouble())) * Math.Cos(2 * Math.PI * dice.NextDouble());

    private sealed record Bar(double X, double Y, double Length, double Breadth, double Degrees)
    {
        public (double Along, double Across) At(double x, double y)
        {
            var (sin, cos) = Math.SinCos(Degrees * Math.PI / 180);
            return ((x - X) * cos + (y - Y) * sin, -(x - X) * sin + (y - Y) * cos);
        }
    }

    private static Surface Drawn(double mm, Bar[] bars)
    {
        const int width = 300, rows = 300;
        Plane Of(double noise, int seed, Func<Bar?, double, double> value) => Synthetic.Of(width, rows, (x, y) =>
        {
            var bar = bars.FirstOrDefault(b => b.At(mm * x, mm * y) is var (along, across) && Math.Abs(along) < b.Length / 2 && Math.Abs(across) < b.Breadth / 2);
            return value(bar, bar?.At(mm * x, mm * y).Across ?? 0);
        }).AddNoise(noise, seed);
        double Furrow(double across) => 0.1 * Math.Cos(2 * Math.PI * across / 0.8);
        double Turned(Bar? bar, double across, bool x) => bar is null ? 0 : Furrow(across) * (x ? -Math.Sin(bar.Degrees * Math.PI / 180) : Math.Cos(bar.Degrees * Math.PI / 180));
        return new Surface(Of(0.005, 1, (b, a) => Turned(b, a, true)), Of(0.005, 2, (b, a) => Turned(b, a, false)), Of(1, 3, (b, a) => b is null ? 0 : 20 * Math.Sin(2 * Math.PI * a / 0.8)),
            [Of(0.3, 4, (b, _) => b is null ? 40 : 60), Of(0.3, 5, (_, _) => 3), Of(0.3, 6, (b, _) => b is null ? 10 : 20)], mm);
    }
}
