using Sandarac.Analysis.Unexplained;

namespace Sandarac.Analysis.Lines;

/// <summary>The grid on which lines of some width are looked for.</summary>
/// <param name="Factor">Pixels of the photograph along a side of one of the grid's.</param>
/// <param name="Mm">Size of the grid's pixel, mm.</param>
/// <param name="Shape">What is taken for a line on it.</param>
internal sealed record LineGrid(int Factor, double Mm, LineShape Shape)
{
    /// <summary>Longer side at most, pixels.</summary>
    public const int MostPixels = 8000;

    /// <summary>A pixel in line widths: fine enough for the smoothing across a line.</summary>
    private const double Pixel = 0.3;

    /// <summary>Pixels that a line must cover.</summary>
    private const double Narrowest = 2;

    /// <summary>Whether lines cover enough pixels to be found.</summary>
    public bool ShowsLines => Shape.Width >= Narrowest;

    /// <summary>The grid for lines so many of the photograph's pixels wide.</summary>
    public static LineGrid Of(LightFrame frame, double width)
    {
        var factor = Math.Max(Math.Max(1, (int)(Pixel * width)), ReducedLight.FactorFor(frame, MostPixels));
        return new LineGrid(factor, factor * frame.Image.Scale!.Value.MmPerPixel, new LineShape(width / factor));
    }

    /// <summary>That lines of so many mm cover too few pixels, and what to do.</summary>
    public string TooFine(double mm) => FormattableString.Invariant($"A line of {mm} mm covers {Shape.Width:0.0} pixels: too few to look for lines. Give a wider line, or sharper photographs.");
}
