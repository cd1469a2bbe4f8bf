using Sandarac.Imaging;
using Sandarac.Imaging.Fourier;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Correlates one still structure field with many others of one size, over every shift, each overlap by its own energies.</summary>
internal sealed class OverlapCorrelation
{
    private static readonly ParallelOptions Alone = new() { MaxDegreeOfParallelism = 1 };
    private readonly StructureField _still;
    private readonly int _side, _width, _height;
    private readonly Spectrum _cos, _sin;
    private readonly Plane _stillEnergy;
    private readonly Plane _expected;
    private readonly double _all;

    /// <param name="still">The field that stays.</param>
    /// <param name="turned">The field that will be laid over it, not yet turned.</param>
    /// <param name="side">Side of the squares into which it will be turned.</param>
    public OverlapCorrelation(StructureField still, StructureField turned, int side)
    {
        (_still, _side) = (still, side);
        (_width, _height) = (FastLength.AtLeast(still.Width + side), FastLength.AtLeast(still.Height + side));
        (_cos, _sin) = (Transform(still.Cos), Transform(still.Sin));
        _stillEnergy = Energy(still);
        _all = Sum(_stillEnergy);
        _expected = Expected(Energy(turned));
    }

    /// <summary>The strongest shifts of a square's upper left corner, in pixels of the still field.</summary>
    public IReadOnlyList<(int X, int Y, double Strength)> Peaks(StructureField square, double leastOverlap, int most)
    {
        var energy = Energy(square);
        var all = Sum(energy);
        if (all <= 0 || _all <= 0) return [];
        var cross = Correlate((_cos, Transform(square.Cos)), (_sin, Transform(square.Sin)));
        System.Numerics.Tensors.TensorPrimitives.Multiply(cross.Data, _expected.Data, cross.Data);
        var peaks = new List<(int X, int Y, double Strength)>();
        foreach (var (x, y, roughly) in Strongest(cross, 8 * most))
        {
            var i = (y < 0 ? y + _height : y) * _width + (x < 0 ? x + _width : x);
            var product = roughly / _expected.Data[i];
            var (a, b) = Overlap(energy, x, y);
            // Correlation times the root of the structure it was found over: as improbable over little as over much.
            if (Math.Max(a / _all, b / all) >= leastOverlap && a > 0 && b > 0) peaks.Add((x, y, product / Math.Pow(a * b, 0.25)));
        }
        return [.. peaks.OrderByDescending(p => p.Strength).Take(most)];
    }

    /// <summary>The still field's and the square's energy where both have structure.</summary>
    private (double Still, double Square) Overlap(Plane energy, int left, int top)
    {
        var (a, b) = (0.0, 0.0);
        for (var y = Math.Max(0, -top); y < Math.Min(_side, _still.Height - top); y++)
        {
            var still = _stillEnergy.Row(y + top);
            var square = energy.Row(y);
            for (var x = Math.Max(0, -left); x < Math.Min(_side, _still.Width - left); x++)
            {
                if (still[x + left] <= 0 || square[x] <= 0) continue;
                a += still[x + left];
                b += square[x];
            }
        }
        return (a, b);
    }

    /// <summary>What to multiply products by so that shifts of unlike overlap compare: from the square's energy spread over a disc of the same area, for it will be turned.</summary>
    private Plane Expected(Plane energy)
    {
        var radius = Math.Sqrt(energy.Data.Count(e => e > 0) / Math.PI);
        var disc = new Plane(_side, _side);
        for (var y = 0; y < _side; y++)
            for (var x = 0; x < _side; x++)
                if ((x - _side / 2.0) * (x - _side / 2.0) + (y - _side / 2.0) * (y - _side / 2.0) <= radius * radius) disc[x, y] = 1;
        var share = (float)(Sum(energy) / Math.Max(1, Sum(disc)));
        var mask = Transform(disc);
        var a = Correlate((Transform(_stillEnergy), mask));
        var b = Correlate((Transform(_stillEnergy.Select(e => e > 0 ? share : 0)), mask));
        var least = 0.01f * (float)Math.Min(_all, Sum(energy));
        for (var i = 0; i < a.Data.Length; i++)
            a.Data[i] = a.Data[i] > least && b.Data[i] > least ? (float)Math.Pow((double)a.Data[i] * b.Data[i], -0.25) : 0;
        return a;
    }

    private Plane Correlate(params ReadOnlySpan<(Spectrum Still, Spectrum Square)> pairs)
    {
        var sum = new Spectrum(_width, _height);
        foreach (var (a, b) in pairs)
            for (var i = 0; i < sum.Re.Length; i++)
            {
                sum.Re[i] += a.Re[i] * b.Re[i] + a.Im[i] * b.Im[i];
                sum.Im[i] += a.Im[i] * b.Re[i] - a.Re[i] * b.Im[i];
            }
        return PlaneFourier.Inverse(sum, Alone);
    }

    private List<(int, int, double)> Strongest(Plane surface, int most)
    {
        var result = new List<(int, int, double)>();
        const int apart = 6;
        for (var n = 0; n < most; n++)
        {
            var best = System.Numerics.Tensors.TensorPrimitives.IndexOfMax<float>(surface.Data);
            if (surface.Data[best] <= 0) break;
            var (x, y) = (best % _width, best / _width);
            result.Add((x < _still.Width ? x : x - _width, y < _still.Height ? y : y - _height, surface.Data[best]));
            for (var v = -apart; v <= apart; v++)
                for (var u = -apart; u <= apart; u++)
                    surface[(x + u + _width) % _width, (y + v + _height) % _height] = 0;
        }
        return result;
    }

    private Spectrum Transform(Plane plane) => PlaneFourier.Forward(PatchCorrelation.Padded(plane, _width, _height), parallel: Alone);

    private static Plane Energy(StructureField f)
    {
        var energy = new Plane(f.Width, f.Height);
        for (var i = 0; i < energy.Data.Length; i++) energy.Data[i] = f.Cos.Data[i] * f.Cos.Data[i] + f.Sin.Data[i] * f.Sin.Data[i];
        return energy;
    }

    private static double Sum(Plane plane) => plane.Data.Sum(v => (double)v);
}
