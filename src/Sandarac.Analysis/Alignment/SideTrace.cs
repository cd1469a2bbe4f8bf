using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Analysis.Quality;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment;

/// <summary>Profiles across one side at full size, and the place of the side in each.</summary>
internal sealed class SideTrace
{
    private const int Chunk = 128;

    /// <summary>Rows from one profile to the next; each is smoothed over about as many.</summary>
    private const int Spacing = 5;

    private readonly List<(double Along, int First, float[] Encoded, float[] Light)> _profiles = [];

    private SideTrace(SideFrame frame) => Frame = frame;

    /// <summary>The side.</summary>
    public SideFrame Frame { get; }

    /// <summary>Number of profiles.</summary>
    public int Count => _profiles.Count;

    /// <summary>Reads narrow windows along a side.</summary>
    /// <param name="image">The photograph.</param>
    /// <param name="frame">The side, in the photograph's own pixels.</param>
    /// <param name="curve">Where the side is expected, in the same pixels.</param>
    /// <param name="from">Where along the side to begin.</param>
    /// <param name="to">Where to end.</param>
    /// <param name="reach">Pixels to look on each side.</param>
    /// <param name="context">Cancellation.</param>
    public static SideTrace Read(InputImage image, SideFrame frame, SideCurve curve, double from, double to, int reach, RunContext context)
    {
        var facts = image.Image.Facts;
        var light = Bands.AreSmallIntegers(facts) ? ToneCurve.For("profile", facts.IccDescription).Table(facts.FullScale) : null;
        var trace = new SideTrace(frame);
        for (var along = (int)Math.Max(0, from); along + Spacing <= Math.Min(frame.Along, to); along += Chunk)
        {
            context.Cancellation.ThrowIfCancellationRequested();
            trace.ReadChunk(image, light, curve, along, Math.Min(Chunk, (int)Math.Min(frame.Along, to) - along), reach);
        }
        return trace;
    }

    /// <summary>
    /// The side's place in each profile: the strongest change within <paramref name="reach"/> of where it is expected; profiles without one are left out. Encoded
    /// values, as the eye, see dark and bright edges alike, and find the side. But an encoded edge is steepest on its darker side: only in light it is
    /// steepest where the object ends.
    /// </summary>
    /// <param name="expected">Expected depth at a place along the side.</param>
    /// <param name="reach">Pixels.</param>
    /// <param name="inLight">Whether changes of light are asked for instead of changes of the encoded values.</param>
    public IEnumerable<(double Along, double Depth)> Places(Func<double, double> expected, double reach, bool inLight)
    {
        foreach (var (along, first, encoded, light) in _profiles)
        {
            var change = inLight ? light : encoded;
            var middle = expected(along) - 0.5 - first;
            var best = -1;
            for (var i = Math.Max(1, (int)Math.Ceiling(middle - reach)); i <= Math.Min(change.Length - 2, (int)(middle + reach)); i++)
                if (change[i] > change[i - 1] && change[i] >= change[i + 1] && (best < 0 || change[i] > change[best])) best = i;
            if (best >= 0) yield return (along, first + best + 0.5 + CoarseSides.Peak(change[best - 1], change[best], change[best + 1]));
        }
    }

    /// <summary>The places as points of the photograph.</summary>
    public IEnumerable<Point2> Points(Func<double, double> expected, double reach, bool inLight) => Places(expected, reach, inLight).Select(p => Frame.Point(p.Along, p.Depth));

    private void ReadChunk(InputImage image, Func<float, float>? light, SideCurve curve, int along, int length, int reach)
    {
        var depths = new[] { curve.At(along), curve.At(along + length / 2.0), curve.At(along + length) };
        var first = Math.Max(0, (int)depths.Min() - reach - 4);
        var last = Math.Min(Frame.Depth - 1, (int)depths.Max() + reach + 4);
        if (last - first < 8) return;
        var (a, b) = (Frame.Pixel(along, first), Frame.Pixel(along + length - 1, last));
        var (left, top) = (Math.Min(a.X, b.X), Math.Min(a.Y, b.Y));
        var bands = Bands.Of(image.Image.ReadWindow(left, top, Math.Abs(a.X - b.X) + 1, Math.Abs(a.Y - b.Y) + 1), image.Image.Facts);
        var encoded = Changes.Of(bands, Frame.IsUpright);
        var inLight = light is null ? encoded : Changes.Of([.. bands.Select(b => b.Select(light))], Frame.IsUpright);
        for (var i = 0; i + Spacing <= length; i += Spacing)
        {
            float[] Profile(Plane change) => [.. Enumerable.Range(first, last - first + 1).Select(d => Frame.Pixel(along + i + Spacing / 2, d)).Select(p => change[p.X - left, p.Y - top])];
            _profiles.Add((along + i + Spacing / 2.0, first, Profile(encoded), Profile(inLight)));
        }
    }
}
