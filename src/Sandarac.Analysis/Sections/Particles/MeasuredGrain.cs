using Sandarac.Imaging;

namespace Sandarac.Analysis.Sections.Particles;

/// <summary>One grain as the section shows it.</summary>
/// <param name="Area">Pixels.</param>
/// <param name="X">Its middle from the left.</param>
/// <param name="Y">Its middle from the top.</param>
/// <param name="Aspect">Longer over shorter axis of the ellipse with the same second moments.</param>
/// <param name="Circularity">4 pi area / perimeter squared, the perimeter by Crofton's formula in four directions: 1 for a disc.</param>
/// <param name="IsCut">Whether it touches the border of the area or the image.</param>
/// <param name="Light">Mean linear light.</param>
internal sealed record MeasuredGrain(int Area, double X, double Y, double Aspect, double Circularity, bool IsCut, double[] Light)
{
    /// <summary>Diameter of the disc of the same area, pixels.</summary>
    public double Diameter => 2 * Math.Sqrt(Area / Math.PI);

    private sealed class Sums
    {
        public int Area, Across, Down, Slanted;
        public double X, Y, Xx, Yy, Xy;
        public bool Cut;
        public readonly double[] Light = new double[3];
    }

    /// <summary>Measures all grains.</summary>
    /// <param name="labels">Grains numbered from 1.</param>
    /// <param name="count">How many.</param>
    /// <param name="area">The area in which they lie.</param>
    /// <param name="light">Linear light, one plane or three.</param>
    public static IReadOnlyList<MeasuredGrain> Of(int[] labels, int count, bool[] area, Plane[] light)
    {
        var (width, height) = (light[0].Width, light[0].Height);
        var sums = Enumerable.Range(0, count + 1).Select(_ => new Sums()).ToArray();
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++)
            {
                var i = y * width + x;
                Cross(labels, sums, i, x, y, width, height);
                if (labels[i] == 0) continue;
                var s = sums[labels[i]];
                (s.Area, s.X, s.Y, s.Xx, s.Yy, s.Xy) = (s.Area + 1, s.X + x, s.Y + y, s.Xx + (double)x * x, s.Yy + (double)y * y, s.Xy + (double)x * y);
                for (var c = 0; c < light.Length; c++) s.Light[c] += light[c].Data[i];
                s.Cut |= x == 0 || y == 0 || x == width - 1 || y == height - 1 || !area[i - 1] || !area[i + 1] || !area[i - width] || !area[i + width];
            }
        return [.. sums.Skip(1).Select(s => Of(s, light.Length))];
    }

    /// <summary>Counts where lines through the pixels' middles, in four directions, pass a grain's rim; number 0 gathers what is no grain's.</summary>
    private static void Cross(int[] labels, Sums[] sums, int i, int x, int y, int width, int height)
    {
        var here = labels[i];
        var (isRight, isBottom) = (x + 1 == width, y + 1 == height);
        if (!isRight && labels[i + 1] is var right && right != here) (sums[here].Across, sums[right].Across) = (sums[here].Across + 1, sums[right].Across + 1);
        if (isBottom) return;
        if (labels[i + width] is var below && below != here) (sums[here].Down, sums[below].Down) = (sums[here].Down + 1, sums[below].Down + 1);
        if (!isRight && labels[i + width + 1] is var slanted && slanted != here) (sums[here].Slanted, sums[slanted].Slanted) = (sums[here].Slanted + 1, sums[slanted].Slanted + 1);
        if (x > 0 && labels[i + width - 1] is var other && other != here) (sums[here].Slanted, sums[other].Slanted) = (sums[here].Slanted + 1, sums[other].Slanted + 1);
    }

    private static MeasuredGrain Of(Sums s, int bands)
    {
        var (n, x, y) = ((double)s.Area, s.X / s.Area, s.Y / s.Area);
        // A pixel is a square, not a point: its own second moment is 1/12.
        var (xx, yy, xy) = (s.Xx / n - x * x + 1 / 12.0, s.Yy / n - y * y + 1 / 12.0, s.Xy / n - x * y);
        var (half, root) = ((xx + yy) / 2, Math.Sqrt((xx - yy) * (xx - yy) / 4 + xy * xy));
        var perimeter = Math.PI / 8 * (s.Across + s.Down + s.Slanted / Math.Sqrt(2));
        return new MeasuredGrain(s.Area, x + 0.5, y + 0.5, Math.Sqrt((half + root) / Math.Max(1e-9, half - root)), 4 * Math.PI * n / (perimeter * perimeter), s.Cut, [.. s.Light.Take(bands).Select(l => l / n)]);
    }
}
