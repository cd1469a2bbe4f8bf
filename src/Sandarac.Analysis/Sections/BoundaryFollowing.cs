using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections.Aligning;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>
/// Follows boundaries at full size: in a strip along each, straightened by where it was found, the path of least cost by dynamic programming (Fischler, Tenenbaum and
/// Wolf, Computer Graphics and Image Processing 15 (1981) 201; Sun, Pattern Recognition Letters 23 (2002) 703, from memory). What a pixel costs is how much it looks like
/// the layer on the other side, in all lights at once, so that grains do not draw the path to their rims.
/// </summary>
internal static class BoundaryFollowing
{
    /// <summary>Cost of a step of one pixel across, in pixels that look wholly like the other layer.</summary>
    private const double StepCost = 0.6;

    /// <summary>Steps across from one column to the next.</summary>
    private const int MostStep = 2;

    /// <summary>Columns on either side that are averaged before a pixel is judged.</summary>
    private const int Beside = 2;

    /// <summary>Rows on either side over which the place between pixels is taken.</summary>
    private const int Fine = 3;

    /// <summary>A layer thinner than this in the strip is not there.</summary>
    private const double Absent = 1.5;

    /// <summary>Rows of a strip are as high as a pixel; the one in the middle begins at the base, its own middle lies half a pixel below.</summary>
    private sealed record Strip(double[] Base, float[] Likeness, bool[] Counts);

    /// <summary>Follows all boundaries of a section.</summary>
    /// <param name="section">The section as it was found.</param>
    /// <param name="images">The micrographs.</param>
    /// <param name="factor">Pixels of the files along a side of those in which it was found.</param>
    /// <param name="held">What a person says of each boundary; empty when nobody steers.</param>
    /// <param name="context">Cancels.</param>
    /// <exception cref="InputProblem">"clicks": lines drawn for two boundaries cross.</exception>
    public static (StrataFrame Frame, IReadOnlyList<Boundary> Boundaries) Follow(SectionFinding section, IReadOnlyList<PlacedMicrograph> images, int factor,
        IReadOnlyList<HeldBoundary> held, RunContext context)
    {
        var facts = images[0].Grid;
        // What the reduction dropped at the right and lower border moves the frame's middle.
        var (width, height) = (section.Frame.ImageWidth * factor, section.Frame.ImageHeight * factor);
        var frame = section.Frame.Enlarged(width, height);
        var (reach, from) = (3 * factor + 4, (int)(factor * (section.Profiles.Along[section.First] - Profiles.Bundle / 2.0)));
        var count = Math.Min(frame.Width, (int)(factor * (section.Profiles.Along[section.Last] + Profiles.Bundle / 2.0))) - from;
        var shift = ((frame.Width - factor * section.Frame.Width) / 2.0, (frame.Height - factor * section.Frame.Height) / 2.0);
        var bases = section.Edges.Select(e => Base(section, e, factor, shift, from, count)).ToArray();
        double[][] drawn = [.. bases.Select((_, e) => DrawnStretches.Columns(held.Count > e ? held[e].Stretches : [], from, count))];
        DrawnStretches.RefuseCrossings(drawn, (i, v) => frame.ToImage(from + i + 0.5, v));
        for (var e = 0; e < bases.Length; e++) Lay(bases[e], drawn[e]);
        var likeness = bases.Select(_ => new float[count * (2 * reach + 1)]).ToArray();
        var pairs = Enumerable.Range(0, bases.Length).Select(e => Pairs(section, bases, e)).ToArray();
        var channel = 0;
        foreach (var image in images)
        {
            context.Report(0.5);
            var light = Micrographs.LightOf(image, 0, 0, facts.Width, facts.Height);
            for (var e = 0; e < bases.Length; e++) Add(likeness[e], light, channel, frame, from, bases[e], reach, pairs[e], section.Looks);
            channel += light.Length;
        }
        var found = Enumerable.Range(0, bases.Length).Select(e => Along(new Strip(bases[e], Smoothed(likeness[e], count, reach), Counting(bases, e, reach, section)), from, reach, Pins(held.Count > e ? held[e].Pins : [], drawn[e], from))).ToArray();
        for (var e = 0; e < found.Length; e++) Lay(found[e].Across, drawn[e]);
        var ordered = DrawnStretches.InOrder([.. found.Select(b => b.Across)], (e, i) => !double.IsNaN(drawn[e][i]));
        return (frame, [.. found.Zip(ordered, (b, across) => b with { Across = across })]);
    }

    /// <summary>Puts a line where it is drawn.</summary>
    private static void Lay(double[] line, double[] drawn)
    {
        for (var i = 0; i < line.Length; i++)
            if (!double.IsNaN(drawn[i])) line[i] = drawn[i];
    }

    /// <summary>Where a boundary is held: what is followed beside a drawn stretch begins at its ends.</summary>
    private static List<(double Along, double Across)> Pins(IReadOnlyList<Point2> pins, double[] drawn, int from) =>
        [.. pins.Select(q => (q.X, q.Y)), .. drawn.Select((v, i) => (Along: from + i + 0.5, Across: v)).Where(q => !double.IsNaN(q.Across))];

    /// <summary>The edge between the middles of profiles, medians of five taken, at full size.</summary>
    private static double[] Base(SectionFinding section, int[] edge, int factor, (double U, double V) shift, int from, int count)
    {
        double[] smooth = [.. edge.Select((_, p) => (double)LayerSearch.Middle(edge, p, 2))];
        var along = section.Profiles.Along;
        var result = new double[count];
        for (int i = 0, p = section.First; i < count; i++)
        {
            var u = (from + i + 0.5 - shift.U) / factor;
            while (p + 2 <= section.Last && along[p + 1] < u) p++;
            var t = Math.Clamp((u - along[p]) / (along[p + 1] - along[p]), -0.5, 1.5);
            result[i] = factor * (smooth[p] + t * (smooth[p + 1] - smooth[p])) + shift.V;
        }
        return result;
    }

    /// <summary>In each column the layers that meet at a boundary: those that are there.</summary>
    private static (byte Above, byte Below)[] Pairs(SectionFinding section, double[][] bases, int e) => [.. Enumerable.Range(0, bases[e].Length).Select(i =>
    {
        var (above, below) = (e, e + 1);
        while (above > 0 && bases[above][i] - bases[above - 1][i] < Absent) above--;
        while (below < section.Layers + 1 && below < bases.Length && bases[below][i] - bases[below - 1][i] < Absent) below++;
        return ((byte)above, (byte)below);
    })];

    /// <summary>Adds an image's part of how far each pixel lies from the look above (0) to the look below (1).</summary>
    private static void Add(float[] likeness, Plane[] light, int channel, StrataFrame frame, int from, double[] across, int reach, (byte Above, byte Below)[] pairs, IReadOnlyList<LayerLook> looks)
    {
        var (rows, width, height) = (2 * reach + 1, light[0].Width, light[0].Height);
        Parallel.For(0, across.Length, i =>
        {
            var (a, b) = (looks[pairs[i].Above], looks[pairs[i].Below]);
            Span<double> weight = stackalloc double[a.Mean.Length];
            var all = 0.0;
            for (var c = 0; c < a.Mean.Length; c++)
            {
                weight[c] = (b.Mean[c] - a.Mean[c]) / (a.Deviation[c] * a.Deviation[c] + b.Deviation[c] * b.Deviation[c] + 1);
                all += weight[c] * (b.Mean[c] - a.Mean[c]);
            }
            if (all <= 0) return;
            for (var r = 0; r < rows; r++)
            {
                var p = frame.ToImage(from + i + 0.5, across[i] + r - reach + 0.5);
                var (x, y) = (Math.Clamp((int)Math.Floor(p.X), 0, width - 1), Math.Clamp((int)Math.Floor(p.Y), 0, height - 1));
                var at = y * width + x;
                if (float.IsNaN(light[0].Data[at]))
                {
                    // What an image does not show says neither.
                    for (var c = channel; c < channel + light.Length; c++) likeness[i * rows + r] += (float)(weight[c] * (b.Mean[c] - a.Mean[c]) / 2 / all);
                    continue;
                }
                var lab = light.Length == 3 ? Imaging.Colour.CieLab.FromLinear(light[0].Data[at], light[1].Data[at], light[2].Data[at]) : Imaging.Colour.CieLab.FromLinear(light[0].Data[at], light[0].Data[at], light[0].Data[at]);
                var sum = weight[channel] * (lab.L - a.Mean[channel]);
                if (light.Length == 3) sum += weight[channel + 1] * (lab.A - a.Mean[channel + 1]) + weight[channel + 2] * (lab.B - a.Mean[channel + 2]);
                likeness[i * rows + r] += (float)(sum / all);
            }
        });
    }

    /// <summary>The mean of neighbouring columns, within -0.2 to 1.2: a grain may look more like the other layer than that layer itself.</summary>
    private static float[] Smoothed(float[] likeness, int count, int reach)
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
                result[i * rows + r] = Math.Clamp(sum / (b - a), -0.2f, 1.2f);
            }
        }
        return result;
    }

    /// <summary>Pixels that lie in one of the two layers that meet.</summary>
    private static bool[] Counting(double[][] bases, int e, int reach, SectionFinding section)
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

    private static Boundary Along(Strip strip, int from, int reach, List<(double Along, double Across)> pins)
    {
        var (rows, count) = (2 * reach + 1, strip.Base.Length);
        var cost = new float[count * (rows + 1)];
        for (var i = 0; i < count; i++) Costs(strip, i, rows, cost.AsSpan(i * (rows + 1), rows + 1));
        foreach (var (u, v) in pins)
        {
            var i = Math.Clamp((int)(u - from), 0, count - 1);
            var at = Math.Clamp((int)Math.Round(v - strip.Base[i] + reach), 0, rows);
            for (var r = 0; r <= rows; r++)
                if (Math.Abs(r - at) > 1) cost[i * (rows + 1) + r] = float.PositiveInfinity;
        }
        var path = Cheapest(cost, strip.Base, count, rows + 1);
        double[] across = [.. path.Select((r, i) => strip.Base[i] + r - reach + Between(strip, i, r, rows))];
        return new Boundary(from, across, StepWidth(strip, path, rows));
    }

    /// <summary>Cost of a boundary before each row: what lies above it looks like the layer below, and the other way round.</summary>
    private static void Costs(Strip strip, int i, int rows, Span<float> cost)
    {
        var sum = 0f;
        for (var r = 0; r < rows; r++)
            if (strip.Counts[i * rows + r]) sum += Square(1 - strip.Likeness[i * rows + r]);
        cost[0] = sum;
        for (var r = 0; r < rows; r++)
        {
            var t = strip.Likeness[i * rows + r];
            if (strip.Counts[i * rows + r]) sum += Square(t) - Square(1 - t);
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

    /// <summary>Between pixels: where a step of the same sum would stand.</summary>
    private static double Between(Strip strip, int i, int at, int rows)
    {
        var half = 0;
        while (half < Fine && at - half - 1 >= 0 && at + half < rows && strip.Counts[i * rows + at - half - 1] && strip.Counts[i * rows + at + half]) half++;
        var above = 0.0;
        for (var r = at - half; r < at + half; r++) above += 1 - Math.Clamp(strip.Likeness[i * rows + r], 0, 1);
        return above - half;
    }

    /// <summary>Width of the mean step across the path.</summary>
    private static double StepWidth(Strip strip, int[] path, int rows)
    {
        var (sum, weight, reach) = (new double[2 * rows + 1], new int[2 * rows + 1], rows);
        for (var i = 0; i < path.Length; i++)
            for (var r = 0; r < rows; r++)
                if (strip.Counts[i * rows + r]) (sum[r - path[i] + reach], weight[r - path[i] + reach]) = (sum[r - path[i] + reach] + strip.Likeness[i * rows + r], weight[r - path[i] + reach] + 1);
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
