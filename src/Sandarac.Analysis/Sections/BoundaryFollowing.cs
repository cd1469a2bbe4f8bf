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
    /// <summary>Columns for which a part of an image is read at once: what lies away from boundaries is not.</summary>
    private const int Piece = 256;

    /// <summary>Where a layer is thinner than this it lies wholly within the blur of its boundaries, pixels: what is seen there is mixed, and a step in light would be too short. Beyond this share of its length its
    /// mean light is mixed too.</summary>
    private const double Thin = 12, MostThin = 0.1;

    /// <summary>No layer is more even, variance of linear light.</summary>
    private const double LeastVariance = 1e-5;

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
            // A grain may look more like the other layer than that layer itself.
            float[] alike = [.. BoundaryStrip.Smoothed(likeness[e], count, reach).Select(v => Math.Clamp(v, -0.2f, 1.2f))];
            var strip = new BoundaryStrip(reach, bases[e], alike, BoundaryStrip.Smoothed(light[e], count, reach), Mixed(pairs[e]), BoundaryStrip.Counting(bases, e, reach, section));
            found[e] = strip.Along(from, Pins(held.Count > e ? held[e].Pins : [], drawn[e], from), factor, Transition.Of(section, e));
            Lay(found[e].Across, drawn[e]);
        });
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

    /// <summary>In each column the layers that meet at a boundary: those that are there, and whether one is too thin to be seen unmixed.</summary>
    private static (byte Above, byte Below, bool IsMixed)[] Pairs(SectionFinding section, double[][] bases, int e) => [.. Enumerable.Range(0, bases[e].Length).Select(i =>
    {
        var (above, below) = (e, e + 1);
        while (above > 0 && bases[above][i] - bases[above - 1][i] < BoundaryStrip.Absent) above--;
        while (below < section.Layers + 1 && below < bases.Length && bases[below][i] - bases[below - 1][i] < BoundaryStrip.Absent) below++;
        var isThin = (above > 0 && bases[e][i] - bases[above - 1][i] < Thin) || (below < bases.Length && bases[below][i] - bases[e][i] < Thin);
        return ((byte)above, (byte)below, isThin);
    })];

    private static bool[] Mixed((byte Above, byte Below, bool IsMixed)[] pairs)
    {
        var isMostly = pairs.Count(p => p.IsMixed) > MostThin * pairs.Length;
        return [.. pairs.Select(p => isMostly || p.IsMixed)];
    }

    /// <summary>Adds an image's part of how far each pixel lies from the look above (0) to the look below (1), in what the eye tells apart and in linear light.</summary>
    private static void Add(float[] likeness, float[] inLight, PlacedMicrograph image, Lock reading, (int Image, int Channel) place, StrataFrame frame, int from, double[] across, (int First, int End) piece, int reach, (byte Above, byte Below, bool IsMixed)[] pairs, IReadOnlyList<LayerLook> looks)
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
                var p = frame.ToImage(from + i + 0.5, across[i] + r - reach + 0.5);
                var (x, y) = (Math.Clamp((int)Math.Floor(p.X) - left, 0, width - 1), Math.Clamp((int)Math.Floor(p.Y) - top, 0, height - 1));
                var at = y * width + x;
                if (float.IsNaN(light[0].Data[at]))
                {
                    // What an image does not show says neither.
                    for (var c = 0; c < light.Length; c++) likeness[i * rows + r] += (float)(weight[channel + c] * (b.Mean[channel + c] - a.Mean[channel + c]) / 2 / all);
                    for (var c = 0; c < step.Length; c++) inLight[i * rows + r] += (float)(step[c] * (b.Light[place.Image][c] - a.Light[place.Image][c]) / 2);
                    continue;
                }
                var lab = light.Length == 3 ? Imaging.Colour.CieLab.FromLinear(light[0].Data[at], light[1].Data[at], light[2].Data[at]) : Imaging.Colour.CieLab.FromLinear(light[0].Data[at], light[0].Data[at], light[0].Data[at]);
                var sum = weight[channel] * (lab.L - a.Mean[channel]);
                if (light.Length == 3) sum += weight[channel + 1] * (lab.A - a.Mean[channel + 1]) + weight[channel + 2] * (lab.B - a.Mean[channel + 2]);
                likeness[i * rows + r] += (float)(sum / all);
                var share = -origin;
                for (var c = 0; c < step.Length; c++) share += step[c] * light[c].Data[at];
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
    private static (int Left, int Top, int Width, int Height) Around(PlacedMicrograph image, StrataFrame frame, int from, double[] across, (int First, int End) piece, int reach)
    {
        var (low, high) = (across[piece.First..piece.End].Min() - reach, across[piece.First..piece.End].Max() + reach);
        Point2[] corners = [frame.ToImage(from + piece.First, low), frame.ToImage(from + piece.First, high), frame.ToImage(from + piece.End, low), frame.ToImage(from + piece.End, high)];
        var (width, height) = (image.Grid.Width, image.Grid.Height);
        var (left, top) = (Math.Clamp((int)Math.Floor(corners.Min(c => c.X)), 0, width - 1), Math.Clamp((int)Math.Floor(corners.Min(c => c.Y)), 0, height - 1));
        var (right, bottom) = (Math.Clamp((int)Math.Ceiling(corners.Max(c => c.X)), left + 1, width), Math.Clamp((int)Math.Ceiling(corners.Max(c => c.Y)), top + 1, height));
        return (left, top, right - left, bottom - top);
    }
}
