using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;
using Sandarac.Analysis.Numbers;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>A step whose height a person measured: medians of a low and a high area of the map against it.</summary>
/// <param name="Factor">What heights are multiplied by.</param>
/// <param name="Uncertainty">Half-width of its 95 % interval, from the spread of heights within the areas.</param>
internal sealed record KnownStep(double Factor, double Uncertainty)
{
    /// <summary>Measures the step on the map.</summary>
    /// <param name="height">Height, um.</param>
    /// <param name="mmPerPixel">Side of its pixel.</param>
    /// <param name="areas">Areas in mm, of the classes "low" and "high".</param>
    /// <param name="um">The step, um.</param>
    /// <exception cref="InputProblem">An area is missing, holds no height, or the map has no step there.</exception>
    public static KnownStep Of(Plane height, double mmPerPixel, Marks areas, double um)
    {
        var (low, high) = (Heights("low"), Heights("high"));
        var (step, doubt) = (Robust.Median(high) - Robust.Median(low), Math.Sqrt(Math.Pow(Robust.MedianUncertainty(low), 2) + Math.Pow(Robust.MedianUncertainty(high), 2)));
        if (!(step > 2 * doubt))
            throw new InputProblem("step-not-seen", "step-areas", FormattableString.Invariant($"Between the areas the map rises by {step:0.#} um ± {doubt:0.#} um: that is no step to measure by."), "See that \"high\" is the higher one, and that both lie close beside the step.");
        return new KnownStep(um / step, um / step * doubt / step);

        List<double> Heights(string name)
        {
            var values = new List<double>();
            foreach (var area in areas.All.Where(m => areas.Classes[m.Class] == name && m.Geometry is IPolygonal).Select(m => m.Geometry))
            {
                var (box, locator) = (area.EnvelopeInternal, new IndexedPointInAreaLocator(area));
                for (var y = Math.Max(0, (int)(box.MinY / mmPerPixel)); y < Math.Min(height.Height, box.MaxY / mmPerPixel); y++)
                    for (var x = Math.Max(0, (int)(box.MinX / mmPerPixel)); x < Math.Min(height.Width, box.MaxX / mmPerPixel); x++)
                        if (float.IsFinite(height[x, y]) && locator.Locate(new Coordinate((x + 0.5) * mmPerPixel, (y + 0.5) * mmPerPixel)) == Location.Interior) values.Add(height[x, y]);
            }
            return values.Count >= 4 ? values : throw new InputProblem("step-areas", "step-areas", $"The area \"{name}\" is missing, or fewer than four pixels with height lie in it.", "Give GeoJSON areas in mm with the property \"class\": one \"low\", one \"high\".");
        }
    }
}
