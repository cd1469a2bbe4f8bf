namespace Sandarac.Analysis.Sections;

/// <summary>A strip along a boundary, straightened by where it was found. Its rows are as high as a pixel; the one in the middle begins at the base, its own middle lies half a pixel below.</summary>
/// <param name="Reach">Rows on either side of the one in the middle.</param>
/// <param name="Base">Where it was found, by column.</param>
/// <param name="Likeness">How much each pixel looks like the layer below (1) rather than the one above (0), as the eye tells them apart.</param>
/// <param name="Light">The same in linear light, which blur mixes.</param>
/// <param name="IsMixed">Columns in which a layer beside it is too thin to be seen unmixed.</param>
/// <param name="Counts">Pixels that lie in one of the two layers that meet.</param>
internal sealed record BoundaryStrip(int Reach, double[] Base, float[] Likeness, float[] Light, bool[] IsMixed, bool[] Counts)
{
    /// <summary>A layer thinner than this in the strip is not there.</summary>
    public const double Absent = 1.5;

    /// <summary>Cost of a step of one pixel across, in pixels that look wholly like the other layer.</summary>
    private const double StepCost = 0.6;

    /// <summary>Steps across from one column to the next.</summary>
    private const int MostStep = 2;

    /// <summary>Columns on either side that are averaged before a pixel is judged.</summary>
    private const int Beside = 2;

    /// <summary>Rows on either side over which the place between pixels is taken.</summary>
    private const int Fine = 3;

    /// <summary>What lies beside a boundary is told from so many rows beyond those that blur of a pixel mixes, for layers change towards their middle, and from so many columns on either side.</summary>
    private const int Blurred = 2, Plateau = 3, Near = 32;

    /// <summary>A step in light is a step where what lies beside it differs by this share of what the layers do.</summary>
    private const double LeastStep = 0.5;

    private int Rows => 2 * Reach + 1;

    /// <summary>The mean of neighbouring columns.</summary>
    public static float[] Smoothed(float[] likeness, int count, int reach)
    {
        var rows = 2 * reach + 1;
        var result = new float[likeness.Length];
        for (var i = 0; i < count; i++)
        {
            var (a, b) = (Math.Max(0, i - Beside), Math.Min(count, i + Beside + 1));
            for (var r = 0; r < rows; r++)
            {
                var sum = 0f;
                for (var j = a; j < b; j++) sum += likeness[j * rows + r];
                result[i * rows + r] = sum / (b - a);
            }
        }
        return result;
    }

    /// <summary>Pixels that lie in one of the two layers that meet.</summary>
    public static bool[] Counting(double[][] bases, int e, int reach, SectionFinding section)
    {
        var (rows, across) = (2 * reach + 1, bases[e]);
        var counts = new bool[across.Length * rows];
        for (var i = 0; i < across.Length; i++)
        {
            var (above, below) = (e - 1, e + 1);
            while (above >= 0 && across[i] - bases[above][i] < Absent) above--;
            while (below <= section.Layers && bases[below][i] - across[i] < Absent) below++;
            var (top, bottom) = (above >= 0 ? bases[above][i] - across[i] : double.NegativeInfinity, below <= section.Layers ? bases[below][i] - across[i] : double.PositiveInfinity);
            for (var r = 0; r < rows; r++) counts[i * rows + r] = r - reach + 0.5 >= top && r - reach + 0.5 <= bottom;
        }
        return counts;
    }

    /// <summary>The boundary in it.</summary>
    /// <param name="from">The strip's first column.</param>
    /// <param name="pins">Places that it passes through.</param>
    /// <param name="factor">Pixels along a side of those in which the section was found.</param>
    /// <param name="transition">Its transition there.</param>
    public Boundary Along(int from, List<(double Along, double Across)> pins, int factor, Transition transition)
    {
        var (rows, count) = (Rows, Base.Length);
        var cost = new float[count * (rows + 1)];
        for (var i = 0; i < count; i++) Costs(i, cost.AsSpan(i * (rows + 1), rows + 1));
        foreach (var (u, v) in pins)
        {
            var i = Math.Clamp((int)(u - from), 0, count - 1);
            var at = Math.Clamp((int)Math.Round(v - Base[i] + Reach), 0, rows);
            for (var r = 0; r <= rows; r++)
                if (Math.Abs(r - at) > 1) cost[i * (rows + 1) + r] = float.PositiveInfinity;
        }
        var path = Cheapest(cost, Base, count, rows + 1);
        var levels = Levels(path);
        double[] across = [.. path.Select((r, i) => Base[i] + r - Reach + Between(i, r, levels[i]))];
        return new Boundary(from, across, StepWidth(path) is var width && double.IsFinite(width) ? width : factor * transition.Width, factor * transition.Chance);
    }

    /// <summary>Cost of a boundary before each row: what lies above it looks like the layer below, and the other way round.</summary>
    private void Costs(int i, Span<float> cost)
    {
        var rows = Rows;
        var sum = 0f;
        for (var r = 0; r < rows; r++)
            if (Counts[i * rows + r]) sum += Square(1 - Likeness[i * rows + r]);
        cost[0] = sum;
        for (var r = 0; r < rows; r++)
        {
            var t = Likeness[i * rows + r];
            if (Counts[i * rows + r]) sum += Square(t) - Square(1 - t);
            cost[r + 1] = sum;
        }
    }

    private static float Square(float v) => Math.Clamp(v, 0, 1) * Math.Clamp(v, 0, 1);

    private static int[] Cheapest(float[] cost, double[] across, int count, int rows)
    {
        var (best, next, came) = (new double[rows], new double[rows], new sbyte[count * rows]);
        for (var r = 0; r < rows; r++) best[r] = cost[r];
        for (var i = 1; i < count; i++)
        {
            for (var r = 0; r < rows; r++)
            {
                var (least, step) = (double.PositiveInfinity, 0);
                for (var s = -MostStep; s <= MostStep; s++)
                    if (r + s >= 0 && r + s < rows && best[r + s] + StepCost * Math.Abs(s) is var c && c < least) (least, step) = (c, s);
                next[r] = least + cost[i * rows + r];
                came[i * rows + r] = (sbyte)step;
            }
            (best, next) = (next, best);
        }
        var path = new int[count];
        path[^1] = Array.IndexOf(best, best.Min());
        for (var i = count - 1; i > 0; i--) path[i - 1] = path[i] + came[i * rows + path[i]];
        return path;
    }

    /// <summary>The light on either side in each column and those near it: a layer's mean need not be what it shows where it tapers. Null where it does not tell the sides apart.</summary>
    private (double Above, double Below)?[] Levels(int[] path)
    {
        var (above, below) = (new (double Sum, int Count)[path.Length + 1], new (double Sum, int Count)[path.Length + 1]);
        for (var i = 0; i < path.Length; i++)
        {
            (above[i + 1], below[i + 1]) = (above[i], below[i]);
            for (var k = Blurred; k < Blurred + Plateau && !IsMixed[i]; k++)
            {
                Add(ref above[i + 1], i, path[i] - k - 1);
                Add(ref below[i + 1], i, path[i] + k);
            }
        }
        return [.. path.Select((_, i) => !IsMixed[i] && Mean(below, i) - Mean(above, i) >= LeastStep ? (Mean(above, i), Mean(below, i)) : ((double, double)?)null)];
    }

    private void Add(ref (double Sum, int Count) to, int i, int r)
    {
        if (r >= 0 && r < Rows && Counts[i * Rows + r]) to = (to.Sum + Light[i * Rows + r], to.Count + 1);
    }

    private static double Mean((double Sum, int Count)[] running, int i)
    {
        var (a, b) = (running[Math.Max(0, i - Near)], running[Math.Min(running.Length - 1, i + Near + 1)]);
        return (b.Sum - a.Sum) / (b.Count - a.Count);
    }

    /// <summary>Between pixels: where a step of the same sum would stand.</summary>
    private double Between(int i, int at, (double Above, double Below)? levels)
    {
        var (rows, half, above) = (Rows, 0, 0.0);
        while (half < Fine && at - half - 1 >= 0 && at + half < rows && Counts[i * rows + at - half - 1] && Counts[i * rows + at + half]) half++;
        for (var r = i * rows + at - half; r < i * rows + at + half; r++)
            above += 1 - Math.Clamp(levels is var (a, b) ? (Light[r] - a) / (b - a) : Likeness[r], 0, 1);
        return above - half;
    }

    /// <summary>Width of the mean step across the path.</summary>
    private double StepWidth(int[] path)
    {
        var rows = Rows;
        var (sum, weight, reach) = (new double[2 * rows + 1], new int[2 * rows + 1], rows);
        for (var i = 0; i < path.Length; i++)
            for (var r = 0; r < rows; r++)
                if (Counts[i * rows + r]) (sum[r - path[i] + reach], weight[r - path[i] + reach]) = (sum[r - path[i] + reach] + Likeness[i * rows + r], weight[r - path[i] + reach] + 1);
        double At(double share)
        {
            for (var k = 1; k < sum.Length; k++)
            {
                if (weight[k - 1] < path.Length / 4 || weight[k] < path.Length / 4) continue;
                var (a, b) = (sum[k - 1] / weight[k - 1], sum[k] / weight[k]);
                if (a < share && b >= share) return k - 1 + (share - a) / (b - a);
            }
            return double.NaN;
        }
        return At(0.9) - At(0.1);
    }
}
