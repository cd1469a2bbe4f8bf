using System.Numerics;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;
using Sandarac.Specimen.Strokes;

namespace Sandarac.Specimen.Scene;

/// <summary>A layer of paint as the painter thinks of it: a name and the marks that make it.</summary>
internal sealed record Passage(string Name, string Meaning, IReadOnlyList<Stroke> Strokes);

/// <summary>Collects the marks of one passage.</summary>
internal sealed class Hand(int seed, int purpose)
{
    private readonly List<Stroke> _strokes = [];
    private Dice _dice = new(seed, purpose);

    public IReadOnlyList<Stroke> Strokes => _strokes;

    public ref Dice Dice => ref _dice;

    /// <summary>One mark along a smooth curve through points.</summary>
    public void Mark(Paint paint, Handling how, params Vector2[] through) =>
        Add(Paths.Smooth(through, Math.Max(0.8f, how.WidthMm / 5)), paint, how);

    /// <summary>One mark along a given path.</summary>
    public void Add(Vector2[] path, Paint paint, Handling how) => _strokes.Add(new Stroke(_strokes.Count, path, paint, how));

    /// <summary>Covers a region with marks, in no order of place, each aimed at the colour of its middle.</summary>
    /// <param name="area">Left, top, right, bottom, mm.</param>
    /// <param name="spacing">Mean distance of marks across and down, mm.</param>
    /// <param name="mark">The mark at a place; null for none.</param>
    public void Cover((float Left, float Top, float Right, float Bottom) area, (float X, float Y) spacing, Func<Vector2, Mark?> mark)
    {
        var (columns, rows) = ((int)((area.Right - area.Left) / spacing.X) + 1, (int)((area.Bottom - area.Top) / spacing.Y) + 1);
        var order = Enumerable.Range(0, columns * rows).OrderBy(i => Hash.Of(seed, purpose, i)).ToArray();
        foreach (var i in order)
        {
            var jitter = new Vector2((float)_dice.Between(-0.5, 0.5), (float)_dice.Between(-0.5, 0.5));
            var at = new Vector2(area.Left + (i % columns + 0.5f + jitter.X) * spacing.X, area.Top + (i / columns + 0.5f + jitter.Y)
                * spacing.Y);
            if (mark(at) is { } m) Add(Paths.Follow(at, m.Length, m.Direction, Math.Max(1, m.How.WidthMm / 4)), m.Paint, m.How);
        }
    }

    /// <summary>Fills a shape with side-by-side marks in one direction, each from edge to edge.</summary>
    public void Fill(IReadOnlyList<Vector2> outline, float angle, float spacing, Func<Vector2, Paint> paint, Handling how)
    {
        var (along, side) = (Paths.Unit(angle), Paths.Unit(angle + MathF.PI / 2));
        var (low, high) = (outline.Min(p => Vector2.Dot(p, side)), outline.Max(p => Vector2.Dot(p, side)));
        for (var o = low + spacing / 2; o < high; o += spacing * (float)_dice.Between(0.8, 1.2))
        {
            var crossings = Crossings(outline, along, side, o);
            for (var i = 0; i + 1 < crossings.Count; i += 2)
            {
                var (from, to) = (crossings[i] + (float)_dice.Bell(0, 0.4), crossings[i + 1] + (float)_dice.Bell(0, 0.4));
                if (to - from < 1) continue;
                var (a, b) = (along * from + side * o, along * to + side * o);
                Mark(paint((a + b) / 2), how, a, Vector2.Lerp(a, b, 0.5f) + side * (float)_dice.Bell(0, 0.25), b);
            }
        }
    }

    private static List<float> Crossings(IReadOnlyList<Vector2> outline, Vector2 along, Vector2 side, float offset)
    {
        var hits = new List<float>();
        for (var i = 0; i < outline.Count; i++)
        {
            var (a, b) = (outline[i], outline[(i + 1) % outline.Count]);
            var (da, db) = (Vector2.Dot(a, side) - offset, Vector2.Dot(b, side) - offset);
            if (da < 0 != db < 0) hits.Add(Vector2.Dot(Vector2.Lerp(a, b, da / (da - db)), along));
        }
        hits.Sort();
        return hits;
    }
}

/// <summary>A mark to be set: how long, which way, in what.</summary>
internal sealed record Mark(float Length, Func<Vector2, float> Direction, Paint Paint, Handling How);
