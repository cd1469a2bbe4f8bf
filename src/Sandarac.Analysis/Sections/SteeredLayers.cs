using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>Brings the boundaries that were found into agreement with a person's clicks.</summary>
internal static class SteeredLayers
{
    /// <summary>A click this near to a boundary means that boundary, rows; others ask for one that was not found.</summary>
    private const double Near = 8;

    private const int Rounds = 4;

    /// <summary>Boundaries that pass through the clicks, from the top down, and which of them are pinned where (places in the profiles' frame).</summary>
    /// <param name="Edges">The boundaries, first and last row of the profiles included.</param>
    /// <param name="Pins">By boundary, counted from 0 without the first row, its places.</param>
    public sealed record Steered(int[][] Edges, IReadOnlyDictionary<int, List<Point2>> Pins);

    /// <summary>Steers.</summary>
    /// <param name="profiles">The profiles.</param>
    /// <param name="frame">Their frame.</param>
    /// <param name="proposed">Boundaries proposed, first and last row included.</param>
    /// <param name="clicks">The clicks in pixels of the images from which the profiles come.</param>
    /// <param name="onlyClicked">Whether boundaries without a click are left out.</param>
    /// <exception cref="InputProblem">"clicks": one lies beside the section.</exception>
    public static Steered Of(Profiles profiles, StrataFrame frame, int[][] proposed, IReadOnlyList<IReadOnlyList<Point2>> clicks, bool onlyClicked)
    {
        Point2[][] places = [.. clicks.Select(b => b.Select(frame.FromImage).ToArray())];
        if (places.SelectMany(p => p).Any(p => p.X < profiles.Along[0] - Profiles.Bundle || p.X > profiles.Along[^1] + Profiles.Bundle || p.Y < 1 || p.Y > profiles.Rows - 1))
            throw new InputProblem("clicks", "clicks", "A click lies beside the section.", "Click on boundaries of layers in the micrograph in visible light.");
        List<(int[] Edge, Point2[] Pins)> all = [];
        var free = proposed[1..^1].ToList();
        foreach (var pins in places)
        {
            var nearest = free.Select((e, i) => (Edge: e, i, Away: pins.Average(q => Math.Abs(e[ProfileOf(profiles, q)] - q.Y)))).OrderBy(x => x.Away).FirstOrDefault();
            if (nearest.Edge is not null && nearest.Away <= Near)
            {
                free.RemoveAt(nearest.i);
                all.Add((nearest.Edge, pins));
            }
            else all.Add((Beside(profiles, proposed, pins[0]), pins));
        }
        if (!onlyClicked) all.AddRange(free.Select(e => (e, Array.Empty<Point2>())));
        var ordered = all.OrderBy(b => b.Edge.Average()).ToArray();
        int[][] edges = [proposed[0], .. ordered.Select(b => b.Edge), proposed[^1]];
        for (var k = 1; k < edges.Length; k++) edges[k] = [.. edges[k].Zip(edges[k - 1], Math.Max)];
        var held = Enumerable.Range(0, ordered.Length).ToDictionary(k => k + 1, k => ordered[k].Pins.Select(q => (ProfileOf(profiles, q), (int)Math.Round(q.Y))).ToArray());
        edges = LayerChain.Fit(profiles, edges, Rounds, held)?.Edges ?? edges;
        return new Steered(edges, Enumerable.Range(0, ordered.Length).ToDictionary(k => k, k => ordered[k].Pins.ToList()));
    }

    private static int ProfileOf(Profiles profiles, Point2 place) => Math.Clamp((int)((place.X - profiles.Along[0]) / Profiles.Bundle + 0.5), 0, profiles.Count - 1);

    /// <summary>A course through a click, at the same share of the way between the boundaries on either side.</summary>
    private static int[] Beside(Profiles profiles, int[][] proposed, Point2 click)
    {
        var p = ProfileOf(profiles, click);
        var k = Math.Clamp(Array.FindLastIndex(proposed, e => e[p] <= click.Y), 0, proposed.Length - 2);
        var (above, below) = (proposed[k], proposed[k + 1]);
        var (up, down) = (click.Y - above[p], below[p] - click.Y);
        // In the resin, or in a layer many times as thick, it runs along the nearer boundary.
        if (k == 0) return [.. below.Select(b => Math.Max(0, b - (int)Math.Round(down)))];
        if (k == proposed.Length - 2) return [.. above.Select(a => Math.Min(profiles.Rows, a + (int)Math.Round(up)))];
        return [.. above.Zip(below, (a, b) => a + (int)Math.Round(up / Math.Max(1, up + down) * (b - a)))];
    }
}
