using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>A place of the reference that was found again in the moving photograph.</summary>
/// <param name="Target">The place on the target: reference pixels, or mm on the plane.</param>
/// <param name="Moving">Where it lies in the moving photograph, pixels.</param>
/// <param name="Shift">Found less predicted place, target units: how far the map was off.</param>
/// <param name="Score">Normalised correlation of the structure, -1 to 1.</param>
/// <param name="Distinct">Standard deviations by which it stands above the other places searched.</param>
/// <param name="Kxx">How sharply it is placed, per target unit squared (any common factor).</param>
/// <param name="Kxy">The mixed one.</param>
/// <param name="Kyy">Downward.</param>
/// <param name="Reversed">Whether light and dark have changed places; always false where only directions are compared.</param>
public sealed record Match(Point2 Target, Point2 Moving, Point2 Shift, double Score, double Distinct, double Kxx, double Kxy, double Kyy, bool Reversed = false)
{
    /// <summary>How much it says beside others: signal over noise, from its score; nine at most, so that no single patch decides.</summary>
    public double Precision => Math.Clamp(Score * Score / Math.Max(1e-6, 1 - Score * Score), 0.05, 9);
}

/// <summary>Finds patches of the reference in the moving photograph, both brought onto one grid on the target.</summary>
/// <param name="level">The grid, and what is looked for on it.</param>
/// <param name="reference">The reference's structure.</param>
/// <param name="moving">The moving photograph's, where its map puts it.</param>
internal sealed class PatchMatcher(PatchLevel level, FieldAt reference, FieldAt moving)
{
    /// <summary>Wide enough to quiet a sensor's noise, narrow enough for a crack.</summary>
    public static readonly GaussianTaps Taps = GaussianTaps.Of(1.2);

    /// <summary>The patch about a place; null when there is nothing to hold on to, or part of it is not in both photographs.</summary>
    /// <param name="map">Where the moving photograph is believed to lie.</param>
    /// <param name="place">Middle of the patch on the target.</param>
    public Match? Find(PlaneMap map, Point2 place)
    {
        var unit = level.Unit;
        if (reference(place, level.Side) is not { } patch || moving(place, level.Side + 2 * level.Reach) is not { } window) return null;
        if (PatchCorrelation.Find(patch, window, level.Kind == StructureKind.Gradients) is not { } peak) return null;
        Point2 shift = new(peak.X * unit, peak.Y * unit);
        var sharpness = Math.Max(0, peak.Score) / Math.Max(1e-3, 1 - peak.Score * peak.Score) / (unit * unit);
        return new Match(place, map.ToPixel(new Point2(place.X + shift.X, place.Y + shift.Y)), shift, peak.Score, peak.Distinct,
            sharpness * peak.Kxx, sharpness * peak.Kxy, sharpness * peak.Kyy, peak.Reversed);
    }
}
