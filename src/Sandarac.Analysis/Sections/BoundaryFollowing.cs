using Sandarac.Analysis.Declaring;
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

    /// <summary>Columns for which a part of an image is read at once: what lies away from boundaries is not.</summary>
    private const int Piece = 256;

    /// <summary>Where a layer is thinner than this it lies wholly within the blur of its boundaries, pixels: what is seen there is mixed, and a step in light would be too short.</summary>
    private const double Thin = 12;

    /// <summary>No layer is more even, variance of linear light.</summary>
    private const double LeastVariance = 1e-5;

    private sealed record Strip(double[] Base, float[] Likeness, float[] Light, bool[] Counts);

    /// <summary>Follows all boundaries of a section.</summary>
    /// <param name="section">The section as it was found.</param>
    /// <param name="images">The micrographs' files.</param>
    /// <param name="factor">Pixels of the files along a side of those in which it was found.</param>
    /// <param name="pins">By boundary, places of the frame at full size through which it passes.</param>
    /// <param name="context">Cancels.</param>
    public static (StrataFrame Frame, IReadOnlyList<Boundary> Boundaries) Follow(SectionFinding section, IReadOnlyList<InputImage> images, int factor,
        IReadOnlyDictionary<int, List<(double Along, double Across)>> pins, RunContext context)
    {
        // What the reduction dropped at the right and lower border moves the frame's middle.
        var (width, height) = (section.Frame.ImageWidth * factor, section.Frame.ImageHeight * factor);
        var frame = section.Frame.Enlarged(width, height);
        var (reach, from) = (3 * factor + 4, (int)(factor * (section.Profiles.Along[section.First] - Profiles.Bundle / 2.0)));
        var count = Math.Min(frame.Width, (int)(factor * (section.Profiles.Along[section.Last] + Profiles.Bundle / 2.0))) - from;
        var shift = ((frame.Width - factor * section.Frame.Width) / 2.0, (frame.Height - factor * section.Frame.Height) / 2.0);
        var bases = section.Edges.Select(e => Base(section, e, factor, shift, from, count)).ToArray();
        var likeness = bases.Select(_ => new float[count * (2 * reach + 1)]).ToArray();
        var light = bases.Select(_ => new float[count * (2 * reach + 1)]).ToArray();
        var pairs = Enumerable.Range(0, bases.Length).Select(e => Pairs(section, bases, e)).ToArray();
        var (channel, pieces, workers) = (0, (count + Piece - 1) / Piece, section.Profiles.Workers);
        for (var m = 0; m < images.Count; m++)
        {
            context.Report(0.5);
            var (image, m0, first, reading) = (images[m], m, channel, new Lock());
            Parallel.For(0, bases.Length * pieces, workers, n =>
            {
                var (e, start) = (n / pieces, n % pieces * Piece);
                Add(likeness[e], light[e], image, reading, (m0, first), frame, from, bases[e], (start, Math.Min(start + Piece, count)), reach, pairs[e], section.Looks);
            });
            channel += section.Looks[0].Light[m].Length;
        }
        var found = new Boundary[bases.Length];
        Parallel.For(0, found.Length, workers, e => 
        {
            var strip = new Strip(bases[e], Smoothed(likeness[e], count, reach), Smoothed(light[e], count, reach), Counting(bases, e, reach, section));
            found[e] = Along(strip, from, reach, pins.GetValueOrDefault(e) ?? [], factor, Transition.Of(section, e));
        });
        return (frame, InOrder(found));
    }

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

    /// <summary>In each column the layers that meet at a boundary: those that are there, and whether one is too thin to be seen unmixed.</summary>
    private static (byte Above, byte Below, bool IsMixed)[] Pairs(SectionFinding section, double[][] bases, int e) => [.. Enumerable.Range(0, bases[e].Length).Select(i =>
    {
        var (above, below) = (e, e + 1);
        while (above > 0 && bases[above][i] - bases[above - 1][i] < Absent) above--;
        while (below < section.Layers + 1 && below < bases.Length && bases[below][i] - bases[below - 1][i] < Absent) below++;
        var isThin = (above > 0 && bases[e][i] - bases[above - 1][i] < Thin) || (below < bases.Length && bases[below][i] - bases[e][i] < Thin);
        return ((byte)above, (byte)below, isThin);
    })];

    /// <summary>Adds an image's part of how far each pixel lies from the look above (0) to the look below (1), in what the eye tells apart and in linear light.</summary>
    private static void Add(float[] likeness, float[] inLight, InputImage image, Lock reading, (int Image, int Channel) place, StrataFrame frame, int from, double[] across, (int First, int End) piece, int reach, (byte Above, byte Below, bool IsMixed)[] pairs, IReadOnlyList<LayerLook> looks)
    {
        var (left, top, width, height) = Around(image, frame, from, across, piece, reach);
        Plane[] light;
        lock (reading) light = Micrographs.LightOf(image, left, top, width, height);
        var (rows, channel) = (2 * reach + 1, place.Channel);
        Span<double> weight = stackalloc double[looks[0].Mean.Length];
        for (var i = piece.First; i < piece.End; i++)
        {
            var (a, b) = (looks[pairs[i].Above], looks[pairs[i].Below]);
            var all = 0.0;
            for (var c = 0; c < a.Mean.Length; c++)
            {
                weight[c] = (b.Mean[c] - a.Mean[c]) / (a.Deviation[c] * a.Deviation[c] + b.Deviation[c] * b.Deviation[c] + 1);
                all += weight[c] * (b.Mean[c] - a.Mean[c]);
            }
            if (all <= 0) continue;
            var (origin, step) = LightStep(a, b, place.Image);
            for (var r = 0; r < rows; r++)
            {
                var p = frame.ToImage(from + i + 0.5, across[i] + r - reach);
                var (x, y) = (Math.Clamp((int)Math.Floor(p.X) - left, 0, width - 1), Math.Clamp((int)Math.Floor(p.Y) - top, 0, height - 1));
                var at = y * width + x;
                var lab = light.Length == 3 ? Imaging.Colour.CieLab.FromLinear(light[0].Data[at], light[1].Data[at], light[2].Data[at]) : Imaging.Colour.CieLab.FromLinear(light[0].Data[at], light[0].Data[at], light[0].Data[at]);
                var sum = weight[channel] * (lab.L - a.Mean[channel]);
                if (light.Length == 3) sum += weight[channel + 1] * (lab.A - a.Mean[channel + 1]) + weight[channel + 2] * (lab.B - a.Mean[channel + 2]);
                likeness[i * rows + r] += (float)(sum / all);
                var share = -origin;
                for (var c = 0; c < step.Length; c++) share += step[c] * light[c].Data[at];
                if (pairs[i].IsMixed) share = sum / all;
                inLight[i * rows + r] += (float)share;
            }
        }
    }

    /// <summary>An image's part of the step between two looks in linear light, which blur mixes; 0 to 1 over all images.</summary>
    private static (double From, double[] Step) LightStep(LayerLook a, LayerLook b, int image)
    {
        double Weight(int m, int c) => (b.Light[m][c] - a.Light[m][c]) / (a.LightVariance[m][c] + b.LightVariance[m][c] + LeastVariance);
        var all = a.Light.SelectMany((l, m) => l.Select((v, c) => Weight(m, c) * (b.Light[m][c] - v))).Sum();
        double[] step = [.. a.Light[image].Select((_, c) => all > 0 ? Weight(image, c) / all : 0)];
        return (step.Zip(a.Light[image], (s, v) => s * v).Sum(), step);
    }

    /// <summary>The part of an image in which a piece of a strip lies; the nearest pixel where it lies outside.</summary>
    private static (int Left, int Top, int Width, int Height) Around(InputImage image, StrataFrame frame, int from, double[] across, (int First, int End) piece, int reach)
    {
        var (low, high) = (across[piece.First..piece.End].Min() - reach, across[piece.First..piece.End].Max() + reach);
        Point2[] corners = [frame.ToImage(from + piece.First, low), frame.ToImage(from + piece.First, high), frame.ToImage(from + piece.End, low), frame.ToImage(from + piece.End, high)];
        var (width, height) = (image.Image.Facts.Width, image.Image.Facts.Height);
        var (left, top) = (Math.Clamp((int)Math.Floor(corners.Min(c => c.X)), 0, width - 1), Math.Clamp((int)Math.Floor(corners.Min(c => c.Y)), 0, height - 1));
        var (right, bottom) = (Math.Clamp((int)Math.Ceiling(corners.Max(c => c.X)), left + 1, width), Math.Clamp((int)Math.Ceiling(corners.Max(c => c.Y)), top + 1, height));
        return (left, top, right - left, bottom - top);
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
            for (var r = 0; r < rows; r++) counts[i * rows + r] = r - reach >= top && r - reach <= bottom;
        }
        return counts;
    }

    private static Boundary Along(Strip strip, int from, int reach, List<(double Along, double Across)> pins, int factor, Transition transition)
    {
        var (rows, count) = (2 * reach + 1, strip.Base.Length);
        var cost = new float[count * (rows + 1)];
        for (var i = 0; i < count; i++) Costs(strip, i, rows, cost.AsSpan(i * (rows + 1), rows + 1));
        foreach (var (u, v) in pins)
        {
            var i = Math.Clamp((int)(u - from), 0, count - 1);
            var at = Math.Clamp((int)Math.Round(v - strip.Base[i] + reach + 0.5), 0, rows);
            for (var r = 0; r <= rows; r++)
                if (Math.Abs(r - at) > 1) cost[i * (rows + 1) + r] = float.PositiveInfinity;
        }
        var path = Cheapest(cost, strip.Base, count, rows + 1);
        double[] across = [.. path.Select((r, i) => strip.Base[i] + r - reach - 0.5 + Between(strip, i, r, rows))];
        return new Boundary(from, across, StepWidth(strip, path, rows) is var width && double.IsFinite(width) ? width : factor * transition.Width, factor * transition.Chance);
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
        for (var r = at - half; r < at + half; r++) above += 1 - Math.Clamp(strip.Light[i * rows + r], 0, 1);
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

    private static List<Boundary> InOrder(Boundary[] found)
    {
        var ordered = new List<Boundary>();
        foreach (var b in found) ordered.Add(ordered.Count == 0 ? b : b with { Across = [.. b.Across.Zip(ordered[^1].Across, Math.Max)] });
        return ordered;
    }
}
