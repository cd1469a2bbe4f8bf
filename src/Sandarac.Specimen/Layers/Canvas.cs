using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Sandarac.Specimen.Optics;

namespace Sandarac.Specimen.Layers;

/// <summary>
/// The state of the painting while it is built from the support upward: what the topmost surface reflects, how it luminesces, how much
/// X-ray it
/// stops and how high it stands. Laying paint on changes all four; so each light sees every layer that its physics lets it see.
/// </summary>
internal sealed class Canvas(PlaneGrid grid)
{
    public PlaneGrid Grid { get; } = grid;

    /// <summary>Diffuse reflectance R, G, B and infrared.</summary>
    public Vector128<float>[] Reflectance { get; } = GC.AllocateUninitializedArray<Vector128<float>>(grid.Count);

    /// <summary>Luminescence R, G, B under 365 nm; fourth element: X-ray attenuation summed from the panel up (Beer-Lambert
    /// exponent).</summary>
    public Vector128<float>[] Glow { get; } = new Vector128<float>[grid.Count];

    /// <summary>Height of the surface, um, from the panel's mean face.</summary>
    public float[] Height { get; } = new float[grid.Count];

    /// <summary>Thickness of the layer being laid now, um; cleared when the next is begun.</summary>
    public float[] Layer { get; } = new float[grid.Count];

    /// <summary>Number of the mark of the brush that lies on top, from 1; 0 where none does. Float32 holds whole numbers exactly up to 16 million.</summary>
    public float[] Topmost { get; } = new float[grid.Count];

    /// <summary>Lays so many um of paint on one pixel.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Lay(int pixel, Vector128<float> k, Paint paint, float um)
    {
        Reflectance[pixel] = KubelkaMunk.Over(Reflectance[pixel], k, paint.S, um);
        var passes = MathF.Exp(-paint.UvOpacity * um);
        Glow[pixel] = Glow[pixel] * Vector128.Create(passes, passes, passes, 1) + paint.Luminescence * (1 - passes)
            + Vector128.Create(0, 0, 0, paint.XrayPerUm * um);
        Height[pixel] += um;
        Layer[pixel] += um;
    }

    /// <summary>Lays a paint in its own colour.</summary>
    public void Lay(int pixel, Paint paint, float um) => Lay(pixel, paint.K, paint, um);

    /// <summary>Visits every row with its y in mm, rows in parallel; the work on a row must touch that row only.</summary>
    public void ForRows(ParallelOptions options, Action<int> row) => Parallel.For(0, Grid.Height, options, row);
}
