namespace Sandarac.Analysis.Sections.Particles;

/// <summary>Squared Euclidean distance of each pixel of a mask to the nearest pixel outside, exact (Meijster, Roerdink and Hesselink, ISMM 2000, 331). Beyond the image is outside.</summary>
internal static class DistanceMap
{
    /// <summary>The distances, 0 outside.</summary>
    public static int[] Of(bool[] mask, int width, int height)
    {
        var down = new int[mask.Length];
        Parallel.For(0, (width + Strip - 1) / Strip, s => Columns(mask, down, width, height, s * Strip, Math.Min(width, (s + 1) * Strip)));
        var squared = new int[mask.Length];
        Parallel.For(0, (height + Strip - 1) / Strip, s =>
        {
            var (apex, from) = (new int[width + 2], new int[width + 2]);
            for (var y = s * Strip; y < Math.Min(height, (s + 1) * Strip); y++) Row(down.AsSpan(y * width, width), squared.AsSpan(y * width, width), apex, from);
        });
        return squared;
    }

    private const int Strip = 64;

    /// <summary>Rows to the nearest pixel outside in the same column.</summary>
    private static void Columns(bool[] mask, int[] down, int width, int height, int left, int right)
    {
        for (var y = 0; y < height; y++)
            for (var x = left; x < right; x++) down[y * width + x] = mask[y * width + x] ? (y > 0 ? down[(y - 1) * width + x] : 0) + 1 : 0;
        for (var y = height - 1; y >= 0; y--)
            for (var x = left; x < right; x++) down[y * width + x] = Math.Min(down[y * width + x], (y + 1 < height ? down[(y + 1) * width + x] : 0) + 1);
    }

    /// <summary>Lower envelope of the parabolas over a row; one pixel outside is added at either end.</summary>
    private static void Row(ReadOnlySpan<int> down, Span<int> squared, int[] apex, int[] from)
    {
        var n = down.Length;
        var top = 0;
        (apex[0], from[0]) = (-1, -1);
        for (var x = 0; x <= n; x++)
        {
            var g = x < n ? down[x] : 0;
            while (top >= 0 && At(down, apex[top], from[top], n) > At(down, x, from[top], n)) top--;
            if (top < 0) (top, apex[0], from[0]) = (0, x, -1);
            else if (1 + Meet(down, apex[top], x, g, n) is var w && w <= n)
            {
                top++;
                (apex[top], from[top]) = (x, w);
            }
        }
        for (var x = n - 1; x >= 0; x--)
        {
            while (from[top] > x) top--;
            squared[x] = At(down, apex[top], x, n);
        }
    }

    private static int At(ReadOnlySpan<int> down, int apex, int x, int n)
    {
        var g = apex >= 0 && apex < n ? down[apex] : 0;
        return (x - apex) * (x - apex) + g * g;
    }

    /// <summary>Last place at which the left parabola lies no higher than the right one.</summary>
    private static int Meet(ReadOnlySpan<int> down, int left, int right, int g, int n)
    {
        var h = left >= 0 && left < n ? down[left] : 0;
        return (int)Math.Floor((double)(right * right - left * left + g * g - h * h) / (2 * (right - left)));
    }
}
