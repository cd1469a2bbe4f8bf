using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Places;

namespace Sandarac.Studio;

/// <summary>What a map of numbers holds along a line.</summary>
/// <param name="StepMm">Distance of two places along the line, mm; the first lies at its beginning, the last at its end.</param>
/// <param name="LengthMm">The line's length, mm.</param>
/// <param name="BreadthMm">Over how broad a band across the line values are averaged, mm.</param>
/// <param name="Values">Means across the band, in the map's unit; null where less than half of it has data.</param>
/// <param name="PeakToValley">Largest value less smallest; null when there is none.</param>
/// <param name="Unit">The map's unit.</param>
public sealed record LineProfile(double StepMm, double LengthMm, double BreadthMm, IReadOnlyList<double?> Values, double? PeakToValley, string Unit);

/// <summary>Reads maps of numbers along lines.</summary>
public sealed class LineProfiles(OpenStudio studio)
{
    /// <summary>Most corners of a line, and most values that are read for one.</summary>
    private const int MostCorners = 1000, MostValues = 4_000_000;

    /// <summary>Part of a step by which a whole number of pixels may come out too long.</summary>
    private const double Rounding = 1e-6;

    /// <summary>Broadest band, mm.</summary>
    private const double BroadestMm = 50;

    /// <summary>Reads the first band of a layer at steps of one of its pixels or a little less.</summary>
    /// <param name="layerId">A layer of numbers on the plane.</param>
    /// <param name="line">Corners in mm on the plane.</param>
    /// <param name="breadthMm">Breadth of the band across the line, 0 for the line itself.</param>
    /// <param name="cancellation">Cancels.</param>
    /// <exception cref="InputProblem">"unknown-layer"; "profile-layer", "profile-line", "profile-breadth": not what can be read.</exception>
    public LineProfile Along(string layerId, IReadOnlyList<Point2> line, double breadthMm, CancellationToken cancellation = default)
    {
        var layer = new Layers(studio).Find(layerId);
        if (layer is not { IsReading: true, OnPlane: true, MmPerPixel: { } mm })
            throw new InputProblem("profile-layer", layerId, "The layer is no map on the plane.", "Ask for the height of a relief, or another reading's map.");
        if (!(breadthMm >= 0 && breadthMm <= BroadestMm))
            throw new InputProblem("profile-breadth", "breadth", "The breadth is not a length that can be averaged over.", $"Give 0 to {BroadestMm:0} mm.");
        if (line.Count is < 2 or > MostCorners || !line.All(p => double.IsFinite(p.X) && double.IsFinite(p.Y)))
            throw new InputProblem("profile-line", "line", "The line is none: it needs two places at least.", $"Give x and y of 2 to {MostCorners} places in mm.");
        var band = new BandAlongLine(line, breadthMm);
        var (steps, across) = (Math.Ceiling(band.Length / mm - Rounding), Math.Max(1, (int)Math.Round(breadthMm / mm)));
        if (!(band.Length > 0) || steps * across > MostValues)
            throw new InputProblem("profile-line", "line", band.Length > 0 ? "The line is too long for its breadth." : "The line has no length.", "Draw it on the painting; a narrower band may be longer.");
        var values = studio.Pyramids.Read(layer.Pyramid.Sha256, file =>
            band.Read(new RasterBetween(file), new Point2(layer.Extent.Left, layer.Extent.Top), mm, (int)steps, across, cancellation));
        var known = values.OfType<double>().ToList();
        return new LineProfile(band.Length / steps, band.Length, breadthMm, values, known.Count == 0 ? null : known.Max() - known.Min(), layer.Pyramid.Unit);
    }
}
