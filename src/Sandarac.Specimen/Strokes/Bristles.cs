using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Strokes;

/// <summary>
/// The bristles of one mark: each has its own load, start and end, and its own paint, which changes along the path as it takes up what
/// lies beneath.
/// Built before the mark is laid, so that a mark never feeds on itself.
/// </summary>
internal sealed class Bristles
{
    private const float StationMm = 4;
    private readonly Stroke _stroke;
    private readonly int _stream;
    private readonly float[] _load, _runOut, _start, _end;
    private readonly float[] _pauses;
    private readonly Vector128<float>[] _absorption;
    private readonly int _stations;
    private readonly float _furrow, _soft, _thin, _open, _close;

    public Bristles(Stroke stroke, Canvas canvas, float[] arc, Vector2[] normals, int stream)
    {
        _stroke = stroke;
        _stream = (int)Hash.Of(stream, stroke.Id, 77);
        var hand = stroke.Hand;
        var mm = canvas.Grid.MmPerPixel;
        _furrow = hand.Furrow * Math.Min(1, hand.BristleMm / (1.2f * mm));
        Count = CountOf(hand, mm);
        HalfWidth = Math.Max(hand.WidthMm / 2, 0.7f * mm);
        // A mark finer than the grid is widened to it and thinned, so that it keeps its paint.
        _thin = hand.WidthMm / 2 / HalfWidth;
        _soft = Math.Clamp(1.1f * mm / HalfWidth, 0.10f, 0.9f);
        Length = arc[^1];
        var dice = new Dice(_stream, 1);
        (_open, _close) = (hand.WidthMm * (float)dice.Between(0.2, 0.9), hand.WidthMm * (float)dice.Between(0.5, 2.2));
        (_load, _runOut, _start, _end) = (new float[Count + 1], new float[Count + 1], new float[Count + 1], new float[Count + 1]);
        for (var b = 0; b <= Count; b++)
        {
            _load[b] = (float)(1 + _furrow * dice.Bell(0, 0.45));
            _runOut[b] = hand.RunOutMm * (float)Math.Max(0.15, dice.Bell(1, 0.35));
            // A brush's tuft is round: its outer bristles touch later and lift sooner.
            var round = hand.WidthMm * 0.4f * (1 - MathF.Sqrt(1 - 0.95f * MathF.Pow(2f * b / Count - 1, 2)));
            _start[b] = round + hand.WidthMm * hand.Ragged * (float)dice.Between(0, 0.5);
            _end[b] = Length - round - hand.WidthMm * hand.Ragged * (float)dice.Between(0, 1);
        }
        _pauses = PausesAlong(hand.PauseMm, dice);
        _stations = 2 + (int)(Length / StationMm);
        _absorption = TakeUp(canvas, arc, normals);
    }

    /// <summary>Spaces between bristles across the width. Furrows finer than the grid cannot be drawn: they widen to it, and flatten as their mean would.</summary>
    public static int CountOf(Handling hand, float mmPerPixel) => Math.Max(3, (int)(hand.WidthMm / Math.Max(hand.BristleMm, 1.1f * mmPerPixel)));

    /// <summary>Spaces between bristles across the width.</summary>
    public int Count { get; }

    /// <summary>Length of the path, mm.</summary>
    public float Length { get; }

    /// <summary>Half the width of the mark as drawn, mm.</summary>
    public float HalfWidth { get; }

    /// <summary>Place across the tuft of a place across the path: the tuft spreads as it is pressed down, narrows as it lifts, and the
    /// hand wavers.</summary>
    public float Across(float s, float v)
    {
        var pressed = 0.62f + 0.38f * Math.Min(1, s / _open);
        var lifted = 0.35f + 0.65f * Math.Min(1, (Length - s) / _close);
        var breathing = 0.90f + 0.10f * Noise.Along(_stream, 200, s / (0.4f * _stroke.Hand.WidthMm + 2));
        return (v + 0.12f * Noise.Along(_stream, 201, s / (0.8f * _stroke.Hand.WidthMm + 3))) / (pressed * lifted * breathing);
    }

    /// <summary>Thickness laid (um) at arc length <paramref name="s"/> mm and place <paramref name="v"/> across, -1 to 1.</summary>
    public float Thickness(float s, float v)
    {
        var across = (v + 1) * 0.5f * Count;
        var i = Math.Clamp((int)across, 0, Count - 1);
        var f = across - i;
        var near = f < 0.5f ? i : i + 1;
        var lift = Math.Min(Shape.Step(_start[near] - 1.2f, _start[near] + 0.6f, s), 1
            - Shape.Step(_end[near] - 1.5f, _end[near] + 0.5f, s));
        if (lift <= 0) return 0;
        var left = 1 - s / (_runOut[i] + f * (_runOut[i + 1] - _runOut[i]));
        var clumps = Noise.Along(_stream, near, s * 0.22f);
        left += 0.25f * clumps;
        if (left <= 0) return 0;
        var dry = left < 0.35f ? Shape.Step(0.62f - 1.6f * left, 0.92f - 1.6f * left, 0.5f + 0.5f
            * Noise.At(_stream + 1, s * 0.55f, across * 0.9f)) : 1;
        var load = (_load[i] + f * (_load[i + 1] - _load[i])) * (1 + 0.2f * clumps);
        var ridge = 1 + _furrow * 0.55f * (f * (1 - f) * 4 - 0.6f);
        var edge = MathF.Abs(v);
        var side = 1 + _stroke.Hand.SideRidge * Shape.Step(0.66f, 0.84f, edge);
        side *= 1 - Shape.Step(1 - _soft, 1, edge);
        var t = _thin * _stroke.Hand.LoadUm * MathF.Max(load, 0) * ridge * side * MathF.Sqrt(Math.Min(left, 1)) * lift * dry;
        return t * (1 + Pause(s)) * (s < _stroke.Hand.WidthMm * 0.5f ? 1.2f : 1);
    }

    /// <summary>Absorption of the paint there: bilinear between bristles and stations.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector128<float> Absorption(float s, float v)
    {
        var x = Math.Clamp(s / StationMm, 0, _stations - 1.001f);
        var y = Math.Clamp((v + 1) * 0.5f * Count, 0, Count - 0.001f);
        var (ix, iy) = ((int)x, (int)y);
        var (fx, fy) = (x - ix, y - iy);
        var at = ix * (Count + 1) + iy;
        var here = _absorption[at] + (_absorption[at + 1] - _absorption[at]) * fy;
        at += Count + 1;
        var next = _absorption[at] + (_absorption[at + 1] - _absorption[at]) * fy;
        return here + (next - here) * fx;
    }

    private float Pause(float s)
    {
        var sum = 0f;
        foreach (var p in _pauses)
        {
            var d = (s - p) / 0.7f;
            if (d * d < 9) sum += 0.9f * MathF.Exp(-d * d);
        }
        return sum;
    }

    private float[] PausesAlong(float meanMm, Dice dice)
    {
        var pauses = new List<float>();
        if (meanMm > 0)
            for (var s = (float)dice.Between(0.4, 1.2) * meanMm; s < Length - 2; s += (float)dice.Between(0.5, 1.5) * meanMm) pauses.Add(s);
        return [.. pauses];
    }

    /// <summary>Each bristle starts with its own mixture and drifts towards the colour it passes over. What lies beneath is known by its
    /// reflectance only, so
    /// it is taken up as a paint of the same scattering that would look like it: a stated simplification.</summary>
    private Vector128<float>[] TakeUp(Canvas canvas, float[] arc, Vector2[] normals)
    {
        var (hand, paint, grid) = (_stroke.Hand, _stroke.Paint, canvas.Grid);
        var share = 1 - MathF.Pow(1 - hand.PickUp, StationMm / 10);
        var table = new Vector128<float>[_stations * (Count + 1)];
        var dice = new Dice(_stream, 2);
        for (var b = 0; b <= Count; b++)
        {
            var carried = paint.K * MathF.Exp(hand.Streak * (float)dice.Bell(0, 1));
            var (k, v) = (0, 2f * b / Count - 1);
            for (var n = 0; n < _stations; n++)
            {
                table[n * (Count + 1) + b] = carried;
                var s = Math.Min(n * StationMm, Length);
                while (k + 2 < arc.Length && arc[k + 1] < s) k++;
                var t = (s - arc[k]) / Math.Max(arc[k + 1] - arc[k], 1e-6f);
                var p = Vector2.Lerp(_stroke.Path[k], _stroke.Path[k + 1], t) + normals[k] * (v * HalfWidth);
                var (x, y) = ((int)(p.X / grid.MmPerPixel), (int)(p.Y / grid.MmPerPixel));
                if (share == 0 || p.X < 0 || p.Y < 0 || x >= grid.Width || y >= grid.Height) continue;
                var r = Vector128.Max(canvas.Reflectance[y * grid.Width + x], Vector128.Create(0.01f));
                var one = Vector128<float>.One;
                carried += (paint.S * (one - r) * (one - r) / (2f * r) - carried) * share;
            }
        }
        return table;
    }
}
