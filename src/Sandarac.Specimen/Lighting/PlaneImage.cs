using System.Runtime.Intrinsics;
using Sandarac.Specimen.Cameras;
using Sandarac.Specimen.Layers;

namespace Sandarac.Specimen.Lighting;

/// <summary>What leaves the painting in one light, on the plane's grid, and what surrounds it.</summary>
internal sealed class PlaneImage(PlaneGrid grid, Radiance surround)
{
    private readonly float _perMm = 1 / grid.MmPerPixel;

    /// <summary>Radiance, R, G, B or in the first element; reused for one light after another.</summary>
    public Vector128<float>[] Data { get; } = GC.AllocateUninitializedArray<Vector128<float>>(grid.Count);

    /// <summary>What lies around the painted face.</summary>
    public Radiance Surround { get; set; } = surround;

    /// <summary>Computes every pixel.</summary>
    public void Fill(ParallelOptions options, Func<int, int, Vector128<float>> radiance) => Parallel.For(0, grid.Height, options, y =>
    {
        for (var x = 0; x < grid.Width; x++) Data[y * grid.Width + x] = radiance(x, y);
    });

    /// <summary>Radiance at a place, mm: bilinear on the painting.</summary>
    public Vector128<float> At(float x, float y)
    {
        if (x < 0 || y < 0 || x >= (float)SpecimenPainting.WidthMm || y >= (float)SpecimenPainting.HeightMm) return Surround(x, y);
        var (px, py) = (Math.Clamp(x * _perMm - 0.5f, 0, grid.Width - 1.001f), Math.Clamp(y * _perMm - 0.5f, 0, grid.Height - 1.001f));
        var (ix, iy) = ((int)px, (int)py);
        var (fx, fy) = (px - ix, py - iy);
        var i = iy * grid.Width + ix;
        var top = Data[i] + (Data[i + 1] - Data[i]) * fx;
        i += grid.Width;
        var low = Data[i] + (Data[i + 1] - Data[i]) * fx;
        return top + (low - top) * fy;
    }
}
