using System.Globalization;
using Sandarac.Analysis.Lines;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Lines;

public class LinesTests
{
    private static readonly ParallelOptions Two = new() { MaxDegreeOfParallelism = 2 };

    /// <summary>SciPy's Gaussian derivatives, References/Lines/SOURCE.md. Ours are cut off at five standard deviations, SciPy's at eight: of the fourth moment, which norms the second derivative, 0.02 % lie between.</summary>
    [Fact]
    public void Known_second_derivatives_agree_with_scipy()
    {
        double[][] rows = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Lines", "derivatives.csv")).Skip(1).Select(l => l.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray())];
        var ours = Derivatives.Of(new Plane(44, 36, [.. rows.Select(r => (float)r[0])]), 3);
        foreach (var (plane, column) in ((Plane, int)[])[(ours.Xx, 1), (ours.Yy, 2), (ours.Xy, 3)])
        {
            var largest = rows.Max(r => Math.Abs(r[column]));
            for (var i = 0; i < rows.Length; i++) Assert.Equal(rows[i][column], plane.Data[i], 1e-3 * largest);
        }
    }

    [Theory]
    [InlineData(0.7)]
    [InlineData(1.3)]
    [InlineData(4)]
    public void Second_derivatives_of_a_parabola_are_exact(double sigma)
    {
        var found = Derivatives.Of(Synthetic.Of(60, 60, (x, y) => 0.5 * x * x + 3 * x * y - 2 * y * y), sigma);
        var middle = 30 * 60 + 30;
        Assert.Equal(1, found.Xx.Data[middle], 0.02);
        Assert.Equal(-4, found.Yy.Data[middle], 0.02);
        Assert.Equal(3, found.Xy.Data[middle], 0.02);
    }

    /// <summary>A line with a Gaussian profile as wide as the smoothing has its own depth as strength, whichever way it runs.</summary>
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.4)]
    [InlineData(1.1)]
    [InlineData(2.3)]
    public void Known_depth_and_direction_of_a_line(double normal)
    {
        var shape = new LineShape(5);
        var plane = Line(normal, 0.3, shape);
        var field = LineField.Of(plane, shape, Two);
        var middle = 80 * 160 + 80;
        Assert.InRange(field.Strength.Data[middle], 0.92f * 0.3f, 0.305f);
        Assert.InRange(Math.Abs(Math.IEEERemainder(LineShape.Angle(field.Direction[middle]) - normal, Math.PI)), 0, Math.PI / LineShape.Directions);
        var points = new LinePoints(field, Derivatives.Of(plane.Select(v => 0.5f * v), shape.Across), shape).Stronger(0.15f, 20);
        Assert.All(points, p => Assert.Equal(0.5 * p.Strength, p.Other, 1e-4));
        Assert.All(points, p => Assert.InRange(Off(p.X, p.Y, normal), -0.2, 0.2));
        var line = Assert.Single(new LineTrace(points, 160, 7.5).Lines(0.2, 50));
        Assert.InRange(line.Length, 110, 185);
    }

    [Fact]
    public void A_bright_line_and_an_even_plane_have_no_points()
    {
        var shape = new LineShape(5);
        foreach (var plane in (Plane[])[Line(0.7, -0.3, shape), Line(0, 0, shape)]) Assert.DoesNotContain(Points(plane, shape), p => Math.Abs(Off(p.X, p.Y, 0.7)) < 4);
    }

    /// <summary>Beside a step from dark to light curvature is strong too; it is no line.</summary>
    [Fact]
    public void A_step_is_no_line()
    {
        var shape = new LineShape(5);
        var step = Synthetic.Of(160, 160, (x, y) => 0.5 * Synthetic.BlurredStep(Off(x, y, 0.4)));
        Assert.Empty(Points(step, shape));
    }

    [Fact]
    public void Extreme_where_there_is_no_data_there_is_no_line()
    {
        var shape = new LineShape(5);
        var plane = Line(0.4, 0.3, shape);
        for (var y = 60; y < 100; y++) plane.Row(y).Fill(float.NaN);
        Assert.True(float.IsNaN(LineField.Of(plane, shape, Two).Strength[80, 80]));
        Assert.DoesNotContain(Points(plane, shape), p => p.Y is > 60 and < 100);
        Assert.Contains(Points(plane, shape), p => p.Y is > 120 && p.Strength > 0.15f);
    }

    /// <summary>A line only in the first, one in both, one only in the second.</summary>
    [Fact]
    public void Lines_are_told_apart_by_which_photograph_shows_them()
    {
        var shape = new LineShape(4);
        double Dark(double d) => -0.3 * Math.Exp(-0.5 * d * d / (shape.Across * shape.Across));
        var first = Synthetic.Of(200, 120, (x, y) => Dark(y - 40.5) + Dark(y - 70.5)).AddNoise(0.01, 1);
        var second = Synthetic.Of(200, 120, (x, y) => Dark(y - 70.5) + Dark(y - 90.5)).AddNoise(0.01, 2);
        var work = LineWork.Of(first, second, shape, 0.15, 30, Two);
        foreach (var (lines, y) in ((IReadOnlyList<TracedLine>, double)[])[(work.FirstOnly, 40.5), (work.Both, 70.5), (work.SecondOnly, 90.5)])
        {
            var line = Assert.Single(lines);
            Assert.All(line.Points, p => Assert.InRange(p.Y, y - 0.3, y + 0.3));
            // 200 pixels less three line widths on either side.
            Assert.InRange(line.Length, 165, 177);
        }
    }

    private static IReadOnlyList<LinePoint> Points(Plane plane, LineShape shape) => LineField.Of(plane, shape, Two) is var field ? new LinePoints(field, field.Derivatives, shape).Stronger(0.05f, 15) : [];

    private static Plane Line(double normal, double depth, LineShape shape) =>
        Synthetic.Of(160, 160, (x, y) => Off(x, y, normal) is var d ? -depth * Math.Exp(-0.5 * d * d / (shape.Across * shape.Across)) : 0);

    private static double Off(double x, double y, double normal) => (x - 80.5) * Math.Cos(normal) + (y - 80.5) * Math.Sin(normal);
}
