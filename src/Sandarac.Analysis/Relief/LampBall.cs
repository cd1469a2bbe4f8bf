using MathNet.Numerics.LinearAlgebra;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>A ball in the frame, seen from far away.</summary>
/// <param name="CentreX">Middle, pixels from the frame's left side.</param>
/// <param name="CentreY">From its upper side.</param>
/// <param name="Radius">Radius, pixels.</param>
public sealed record LampBall(double CentreX, double CentreY, double Radius)
{
    /// <summary>Share of the brightest pixel above which light counts as the lamp's mirror image.</summary>
    private const float Highlight = 0.7f;

    /// <summary>Share of the brightest light from which a place of a matte ball counts as lit.</summary>
    private const float Lit = 0.1f;

    /// <summary>The lamp by its mirror image on a mirror ball: the normal there halves the angle between lamp and viewer.</summary>
    /// <param name="light">The photograph, linear.</param>
    /// <exception cref="InputProblem">The ball is not in the frame, dark, or mirrors the lamp at its very rim.</exception>
    public Lamp FromMirror(Plane light)
    {
        var limit = Highlight * Brightest(light);
        var (image, heaviest) = ((X: 0.0, Y: 0.0), 0.0);
        var mask = new bool[light.Data.Length];
        foreach (var (i, _, _) in Inside(light)) mask[i] = light.Data[i] >= limit;
        // Of several bright places the heaviest is the lamp; windows and walls mirror weaker ones.
        foreach (var part in Imaging.Geometry.ConnectedParts.Of(mask, light.Width))
        {
            var (weight, x, y) = (0.0, 0.0, 0.0);
            foreach (var i in part) (weight, x, y) = (weight + light.Data[i], x + light.Data[i] * (i % light.Width + 0.5), y + light.Data[i] * (i / light.Width + 0.5));
            if (weight > heaviest) (heaviest, image) = (weight, (x / weight, y / weight));
        }
        var (nx, ny) = ((image.X - CentreX) / Radius, (image.Y - CentreY) / Radius);
        var square = nx * nx + ny * ny;
        if (square > 0.99) throw new InputProblem("ball-rim", "ball", "The lamp's mirror image lies at the rim of the ball.", "Give the ball's circle more exactly, or move the lamp to the front.");
        var nz = Math.Sqrt(1 - square);
        return Lamp.Towards(2 * nz * nx, 2 * nz * ny, 2 * nz * nz - 1);
    }

    /// <summary>The lamp by the shading of a matte ball: Lambert's law by least squares over its lit part.</summary>
    /// <param name="light">The photograph, linear.</param>
    /// <exception cref="InputProblem">The ball is not in the frame or dark.</exception>
    public Lamp FromMatte(Plane light)
    {
        var limit = Lit * Brightest(light);
        var (normal, right) = (Matrix<double>.Build.Dense(3, 3), Vector<double>.Build.Dense(3));
        foreach (var (i, nx, ny) in Inside(light))
        {
            if (!(light.Data[i] > limit)) continue;
            var n = Vector<double>.Build.Dense([nx, ny, Math.Sqrt(1 - nx * nx - ny * ny)]);
            normal += n.OuterProduct(n);
            right += n * light.Data[i];
        }
        var l = normal.PseudoInverse() * right;
        return Lamp.Towards(l[0], l[1], l[2]);
    }

    private float Brightest(Plane light)
    {
        var values = Inside(light).Select(p => light.Data[p.Index]).Where(float.IsFinite).ToList();
        return values.Count >= 50 && values.Max() is > 0 and var brightest ? brightest
            : throw new InputProblem("ball-dark", "ball", "The ball's circle lies outside of the frame, covers fewer than 50 pixels, or is dark.", "Give its middle and radius in pixels of the photograph.");
    }

    private IEnumerable<(int Index, double X, double Y)> Inside(Plane light)
    {
        for (var y = Math.Max(0, (int)(CentreY - Radius)); y < Math.Min(light.Height, CentreY + Radius); y++)
            for (var x = Math.Max(0, (int)(CentreX - Radius)); x < Math.Min(light.Width, CentreX + Radius); x++)
            {
                var (nx, ny) = ((x + 0.5 - CentreX) / Radius, (y + 0.5 - CentreY) / Radius);
                if (nx * nx + ny * ny < 1) yield return (y * light.Width + x, nx, ny);
            }
    }
}
