using System.Text.Json;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Recognises the layers that one run of `layers` found among those of another on the same micrograph, by where they lie.</summary>
internal static class LayerMatching
{
    /// <summary>Places along the section at which layers are compared.</summary>
    private const int Places = 101;

    /// <summary>Layers of the earlier run with those of the later one: each the one that the other shares most with. Both are counted from 1 at the bottom.</summary>
    public static IReadOnlyDictionary<int, int> Match(IReadOnlyList<RunProposal> earlier, IReadOnlyList<RunProposal> later)
    {
        var (was, now) = (Boundaries(earlier), Boundaries(later));
        if (was.Count < 2 || now.Count < 2) return new Dictionary<int, int>();
        var (left, right) = (was.Concat(now).Max(b => b[0].X), was.Concat(now).Min(b => b[^1].X));
        double[] places = [.. Enumerable.Range(0, Places).Select(i => left + (right - left) * i / (Places - 1))];
        var (heightsWas, heightsNow) = (Heights(was, places), Heights(now, places));
        double Shared(int a, int b) => Enumerable.Range(0, Places).Sum(i => Math.Max(0, Math.Min(heightsWas[a - 1][i], heightsNow[b - 1][i]) - Math.Max(heightsWas[a][i], heightsNow[b][i])));
        int[] ofWas = [.. Enumerable.Range(1, was.Count - 1)], ofNow = [.. Enumerable.Range(1, now.Count - 1)];
        return (from a in ofWas
                let b = ofNow.MaxBy(n => Shared(a, n))
                where Shared(a, b) > 0 && ofWas.MaxBy(w => Shared(w, b)) == a
                select (a, b)).ToDictionary();
    }

    /// <summary>From the lower edge up, each from left to right.</summary>
    private static List<(double X, double Y)[]> Boundaries(IReadOnlyList<RunProposal> proposals) =>
        [.. proposals.Where(p => p.Kind == "layer-boundary").Select(p => JsonElement.Parse(p.Geometry).GetProperty("coordinates").EnumerateArray().Select(c => (X: c[0].GetDouble(), Y: c[1].GetDouble())).OrderBy(c => c.X).ToArray())];

    private static double[][] Heights(List<(double X, double Y)[]> boundaries, double[] places) => [.. boundaries.Select(b => places.Select(x => HeightAt(b, x)).ToArray())];

    private static double HeightAt((double X, double Y)[] line, double x)
    {
        var after = Array.FindIndex(line, p => p.X >= x);
        if (after <= 0) return line[after < 0 ? ^1 : 0].Y;
        var (a, b) = (line[after - 1], line[after]);
        return b.X == a.X ? b.Y : a.Y + (x - a.X) / (b.X - a.X) * (b.Y - a.Y);
    }
}
