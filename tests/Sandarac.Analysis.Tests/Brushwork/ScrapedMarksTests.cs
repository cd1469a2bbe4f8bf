using Sandarac.Analysis.Brushwork;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Brushwork;

/// <summary>Scratches of known place across furrows of known direction; and what looks like them and is none.</summary>
public class ScrapedMarksTests
{
    private const double Mm = 0.2;
    private static readonly ParallelOptions Threads = new() { MaxDegreeOfParallelism = 2 };
    private static readonly ScrapeSettings Settings = new(0.6, 15, 4);

    [Fact]
    public void A_scratch_across_furrows_is_proposed_where_it_lies()
    {
        var marks = Find((x, y) => Furrow(y) - 40 * Groove(x, y, 30, 25, 60, 12));
        var mark = Assert.Single(marks!);
        Assert.Equal("scraped", mark.Kind);
        Assert.InRange(mark.Geometry.Centroid.X, 29, 31);
        Assert.InRange(mark.Geometry.Centroid.Y, 24, 26);
        Assert.InRange(mark.Geometry.Length, 10, 14);
    }

    [Fact]
    public void Furrows_of_the_brush_and_a_scratch_along_them_are_not()
    {
        Assert.Empty(Find((_, y) => Furrow(y))!);
        Assert.Empty(Find((x, y) => Furrow(y) - 40 * Groove(x, y, 30, 25, 0, 12))!);
    }

    [Fact]
    public void The_rim_of_a_stroke_laid_across_is_not()
    {
        // A stroke 6 mm broad from top to bottom with furrows along it and a rim on either side.
        Assert.Empty(Find((x, y) => Math.Abs(x - 30) < 3 ? 40 + Furrow(x) + 30 * Math.Exp(-Math.Pow((Math.Abs(x - 30) - 2.7) / 0.3, 2)) : Furrow(y))!);
    }

    [Fact]
    public void Too_narrow_for_the_grid_gives_no_answer() =>
        Assert.Null(ScrapedMarks.Of(new Plane(10, 10), DirectionField.Of(new Plane(10, 10), new Plane(10, 10), 2, Threads), new ScrapeSettings(0.3, 15, 4), Mm, Threads));

    private static double Furrow(double across) => 12 * Math.Sin(2 * Math.PI * across / 1.3);

    /// <summary>A groove of Gaussian section, 0.25 mm standard deviation, with a middle, a direction (degrees) and a length, mm; 0 to 1.</summary>
    private static double Groove(double x, double y, double middleX, double middleY, double degrees, double length)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        var (along, across) = ((x - middleX) * cos + (y - middleY) * sin, -(x - middleX) * sin + (y - middleY) * cos);
        return Math.Abs(along) > length / 2 ? 0 : Math.Exp(-across * across / (2 * 0.25 * 0.25));
    }

    private static IReadOnlyList<Analysis.Declaring.Candidate>? Find(Func<double, double, double> heightUm)
    {
        Plane Of(Func<double, double, double> value) => Synthetic.Of(300, 250, (x, y) => value(x * Mm, y * Mm));
        var (right, down) = (Of((x, y) => (heightUm(x + 0.01, y) - heightUm(x - 0.01, y)) / 20), Of((x, y) => (heightUm(x, y + 0.01) - heightUm(x, y - 0.01)) / 20));
        return ScrapedMarks.Of(ReliefTexture.Between(Of(heightUm), null, 8 / Mm, Threads), DirectionField.Of(right, down, 2 / Mm, Threads), Settings, Mm, Threads);
    }
}
