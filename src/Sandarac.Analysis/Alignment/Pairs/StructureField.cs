using System.Numerics.Tensors;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>
/// What a picture shows that survives a change of light: at each pixel its change as a vector, with a length from 0 (plain) to 1 (much stronger than around
/// it); as <see cref="StructureKind.Directions"/> at twice the angle, so that light-to-dark and dark-to-light are the same.
/// </summary>
/// <remarks>
/// The doubled angle is that of the structure tensor (Bigun and Granlund, ICCV 1987, 433; over several bands Di Zenzo, Computer Vision, Graphics and Image
/// Processing 33 (1986) 116). Correlating direction instead of brightness: Fitch, Kadyrov, Christmas and Kittler, Orientation correlation, BMVC 2002, 133.
/// </remarks>
internal sealed class StructureField
{
    private StructureField(Plane cos, Plane sin) => (Cos, Sin) = (cos, sin);

    /// <summary>Cosine part; 0 where there is no data.</summary>
    public Plane Cos { get; }

    /// <summary>Sine part.</summary>
    public Plane Sin { get; }

    public int Width => Cos.Width;

    public int Height => Cos.Height;

    /// <summary>Pixels that are lost on every side.</summary>
    public static int Margin(GaussianTaps taps) => taps.Radius;

    /// <summary>The field of a picture's bands, smaller by the margin on every side.</summary>
    /// <param name="bands">The picture's bands, of one size.</param>
    /// <param name="taps">How far a change is looked at.</param>
    /// <param name="kind">With or without sign.</param>
    /// <param name="around">Around which each change is compared; the whole picture when null.</param>
    public static StructureField Of(IReadOnlyList<Plane> bands, GaussianTaps taps, StructureKind kind, GaussianTaps? around = null) =>
        Changes(kind == StructureKind.Colours ? Shares(bands, Dark(bands)) : bands, taps, kind).Normalised(around);

    /// <summary>The changes themselves, in the bands' own units, as they are before they are compared with what lies around them.</summary>
    /// <param name="bands">The picture's bands; of <see cref="StructureKind.Colours"/> their <see cref="Shares"/>.</param>
    /// <param name="taps">How far a change is looked at.</param>
    /// <param name="kind">With or without sign.</param>
    public static StructureField Changes(IReadOnlyList<Plane> bands, GaussianTaps taps, StructureKind kind)
    {
        if (kind == StructureKind.Gradients)
        {
            var sum = Sum(bands);
            return new(GaussianTaps.Apply(sum, taps.Derivative, taps.Smooth), GaussianTaps.Apply(sum, taps.Smooth, taps.Derivative));
        }
        Plane? cos = null, sin = null;
        foreach (var band in bands)
        {
            var (gx, gy) = (GaussianTaps.Apply(band, taps.Derivative, taps.Smooth), GaussianTaps.Apply(band, taps.Smooth, taps.Derivative));
            cos ??= new Plane(gx.Width, gx.Height);
            sin ??= new Plane(gx.Width, gx.Height);
            AddDirections(gx, gy, cos, sin);
        }
        return new(cos!, sin!);
    }

    public static StructureField FromParts(Plane cos, Plane sin) => new(cos, sin);

    /// <summary>Shares of the first and the last band in all: shading multiplies every band alike and leaves them, whatever power the values were encoded by.</summary>
    /// <param name="bands">The picture's bands.</param>
    /// <param name="dark">See <see cref="Dark"/>.</param>
    public static Plane[] Shares(IReadOnlyList<Plane> bands, float dark)
    {
        var sum = Sum(bands);
        return [.. new[] { bands[0], bands[^1] }.Select(b => Share(b, sum, dark))];
    }

    /// <summary>A sum of bands that is hardly any light, where a share would be noise.</summary>
    public static float Dark(IReadOnlyList<Plane> bands)
    {
        var (sum, count) = (0.0, 0);
        foreach (var value in Sum(bands).Data)
            if (float.IsFinite(value)) (sum, count) = (sum + value, count + 1);
        return count == 0 ? 0 : (float)(0.02 * sum / count);
    }

    private static Plane Share(Plane band, Plane sum, float dark)
    {
        var share = new Plane(band.Width, band.Height);
        TensorPrimitives.Add(sum.Data, dark, share.Data);
        TensorPrimitives.Divide(band.Data, share.Data, share.Data);
        return share;
    }

    private static Plane Sum(IReadOnlyList<Plane> bands)
    {
        if (bands.Count == 1) return bands[0];
        var sum = new Plane(bands[0].Width, bands[0].Height);
        foreach (var band in bands) TensorPrimitives.Add(sum.Data, band.Data, sum.Data);
        return sum;
    }

    private static void AddDirections(Plane gx, Plane gy, Plane cos, Plane sin)
    {
        for (var i = 0; i < gx.Data.Length; i++)
        {
            var (x, y) = (gx.Data[i], gy.Data[i]);
            cos.Data[i] += x * x - y * y;
            sin.Data[i] += 2 * x * y;
        }
    }

    /// <summary>Length becomes m / (m + mean of m around), so that faint passages speak beside strong ones. Changes this field.</summary>
    public StructureField Normalised(GaussianTaps? around)
    {
        var (cos, sin) = (Cos, Sin);
        var strength = new Plane(cos.Width, cos.Height);
        for (var i = 0; i < strength.Data.Length; i++)
        {
            var m = MathF.Sqrt(cos.Data[i] * cos.Data[i] + sin.Data[i] * sin.Data[i]);
            strength.Data[i] = float.IsFinite(m) ? m : 0;
        }
        var mean = around is null ? null : MeanAround(strength, around);
        var sum = 0.0;
        foreach (var m in strength.Data) sum += m;
        var overall = (float)(sum / strength.Data.Length);
        for (var i = 0; i < strength.Data.Length; i++)
        {
            var m = strength.Data[i] + (mean is null ? overall : mean.Data[i]);
            var usable = m > 0 && strength.Data[i] > 0;
            (cos.Data[i], sin.Data[i]) = usable ? (cos.Data[i] / m, sin.Data[i] / m) : (0, 0);
        }
        return this;
    }

    /// <summary>Beyond the border the border's values go on.</summary>
    private static Plane MeanAround(Plane strength, GaussianTaps around)
    {
        var r = around.Radius;
        var wide = new Plane(strength.Width + 2 * r, strength.Height + 2 * r);
        for (var y = 0; y < wide.Height; y++)
            for (var x = 0; x < wide.Width; x++)
                wide[x, y] = strength[Math.Clamp(x - r, 0, strength.Width - 1), Math.Clamp(y - r, 0, strength.Height - 1)];
        return GaussianTaps.Apply(wide, around.Smooth, around.Smooth);
    }
}
