using System.Numerics;
using Sandarac.Specimen.Layers;

namespace Sandarac.Specimen.Strokes;

/// <summary>Lays one mark on the canvas. The path is a chain of quads that meet at the joints' bisectors, so that nearly every pixel under
/// the brush belongs to
/// exactly one of them and gets its place along the path and across it.</summary>
internal static class Rasteriser
{
    /// <summary>A thinner film lets the mark beneath keep its relief, um.</summary>
    private const float CoveringUm = 2;

    public static void Lay(Stroke stroke, Canvas canvas, int stream, int number)
    {
        if (stroke.Path.Length < 2) return;
        var (arc, tangents) = Measure(stroke.Path);
        Vector2[] normals = [.. tangents.Select(t => new Vector2(-t.Y, t.X))];
        var bristles = new Bristles(stroke, canvas, arc, normals, stream);
        for (var i = 0; i + 1 < stroke.Path.Length; i++) LayQuad(stroke, canvas, bristles, i, arc, tangents, normals, number);
    }

    private static (float[] Arc, Vector2[] Tangents) Measure(Vector2[] path)
    {
        var arc = new float[path.Length];
        var tangents = new Vector2[path.Length];
        for (var i = 1; i < path.Length; i++) arc[i] = arc[i - 1] + Math.Max(Vector2.Distance(path[i], path[i - 1]), 1e-4f);
        for (var i = 0; i < path.Length; i++)
        {
            var d = path[Math.Min(i + 1, path.Length - 1)] - path[Math.Max(i - 1, 0)];
            tangents[i] = d.LengthSquared() > 1e-12f ? Vector2.Normalize(d) : Vector2.UnitX;
        }
        return (arc, tangents);
    }

    private static void LayQuad(Stroke stroke, Canvas canvas, Bristles bristles, int i, float[] arc, Vector2[] tangents, Vector2[] normals,
        int number)
    {
        var (p, q, half, mm) = (stroke.Path[i], stroke.Path[i + 1], bristles.HalfWidth, canvas.Grid.MmPerPixel);
        var (reachP, reachQ) = (Vector2.Abs(normals[i]) * half, Vector2.Abs(normals[i + 1]) * half);
        var low = Vector2.Min(p - reachP, q - reachQ) / mm;
        var high = Vector2.Max(p + reachP, q + reachQ) / mm;
        var (x0, x1) = (Math.Max(0, (int)low.X), Math.Min(canvas.Grid.Width - 1, (int)high.X + 1));
        var (y0, y1) = (Math.Max(0, (int)low.Y), Math.Min(canvas.Grid.Height - 1, (int)high.Y + 1));
        for (var y = y0; y <= y1; y++)
            for (var x = x0; x <= x1; x++)
            {
                var at = new Vector2((x + 0.5f) * mm, (y + 0.5f) * mm);
                var (d0, d1) = (Vector2.Dot(at - p, tangents[i]), Vector2.Dot(q - at, tangents[i + 1]));
                if (d0 < 0 || d1 <= 0) continue;
                var t = d0 / (d0 + d1);
                var v = Vector2.Dot(at - Vector2.Lerp(p, q, t), Vector2.Lerp(normals[i], normals[i + 1], t)) / half;
                if (v is <= -1 or >= 1) continue;
                var s = arc[i] + t * (arc[i + 1] - arc[i]);
                v = bristles.Across(s, v);
                if (v is <= -1 or >= 1) continue;
                var um = bristles.Thickness(s, v);
                if (um <= 0.05f) continue;
                canvas.Lay(y * canvas.Grid.Width + x, bristles.Absorption(s, v), stroke.Paint, um);
                if (um >= CoveringUm) canvas.Topmost[y * canvas.Grid.Width + x] = number;
            }
    }
}
