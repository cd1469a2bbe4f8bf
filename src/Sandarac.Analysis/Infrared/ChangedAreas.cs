using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Infrared;

/// <summary>Extended areas where infrared is darker or brighter than visible colour lets expect: candidates for changes in composition.</summary>
internal sealed class ChangedAreas
{
    /// <summary>Side of a cell, mm: as wide as a drawn line and its surroundings, so that lines alone make no area.</summary>
    private const double CellMm = 2;

    /// <summary>Finds them.</summary>
    /// <param name="unexplained">Natural logarithm of infrared over what the colour explains, reduced.</param>
    /// <param name="factor">Pixels of the image along a pixel of it.</param>
    /// <param name="scale">The image's scale.</param>
    /// <param name="depth">Least difference, natural logarithm.</param>
    /// <param name="side">Side of a square as large as the smallest area, mm.</param>
    public ChangedAreas(Plane unexplained, int factor, PixelScale? scale, double depth, double side)
    {
        var mm = factor * scale!.Value.MmPerPixel;
        var cells = Math.Max(1, (int)Math.Round(CellMm / mm));
        var darker = ReducedLight.Reduced(unexplained, cells);
        var fewest = Math.Max(1, (int)(side * side / (cells * mm * cells * mm)));
        var (dark, bright) = (Found(darker, "darker"), Found(darker.Select(v => -v), "brighter"));
        Candidates = [.. dark.Candidates, .. bright.Candidates];
        Figures = [dark.Area, bright.Area];

        (IEnumerable<Candidate> Candidates, Figure Area) Found(Plane plane, string how)
        {
            var (parts, figures) = (DarkParts.Of(plane, (float)-depth, fewest), new PartFigures(plane, factor * cells, scale));
            return (parts.Select(p => Candidate(p, figures, depth, how)), new Figure("area", parts.Sum(figures.Area), parts.Sum(figures.AreaUncertainty), null, how));
        }
    }

    /// <summary>A proposal for each.</summary>
    public IReadOnlyList<Candidate> Candidates { get; }

    /// <summary>Their area, darker and brighter ones.</summary>
    public IReadOnlyList<Figure> Figures { get; }

    private static Candidate Candidate(DarkPart part, PartFigures figures, double depth, string how)
    {
        var times = Math.Exp(-figures.Depth(part));
        var reason = string.Create(CultureInfo.InvariantCulture, $"Infrared is {times:0.00} times {how} than paint of this colour is elsewhere, over {figures.Area(part):0} mm2 ± {figures.AreaUncertainty(part):0} mm2. ")
            + "Consistent with another paint below, with a passage given up and covered, with another pigment of the same colour, and with retouching.";
        return new Candidate(figures.Outline(part), "change", figures.ShareBelow(part, -1.5 * depth), reason);
    }
}
