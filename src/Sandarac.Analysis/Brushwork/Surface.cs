using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>The painting's surface on one grid.</summary>
/// <param name="SlopeX">Slope along x, um per um (rise towards larger x); NaN is no data.</param>
/// <param name="SlopeY">Slope along y, down.</param>
/// <param name="Height">Height, um, from any level.</param>
/// <param name="Colour">CIELAB L*, a*, b* of the painting in visible light; empty without such a photograph.</param>
/// <param name="Mm">Size of a pixel, mm.</param>
internal sealed record Surface(Plane SlopeX, Plane SlopeY, Plane Height, IReadOnlyList<Plane> Colour, double Mm)
{
    /// <summary>Columns.</summary>
    public int Width => Height.Width;

    /// <summary>Rows.</summary>
    public int Rows => Height.Height;
}
