using Sandarac.Analysis.Declaring;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Rulers;

/// <summary>A ruler that the reading <c>ruler-scale</c> found, taken from its outcome.</summary>
/// <param name="MmPerPixel">Millimetres per pixel along it, at its middle.</param>
/// <param name="Uncertainty">Half-width of the 95 % interval, mm.</param>
/// <param name="LengthMm">From its first tick to its last, mm.</param>
/// <param name="From">The first tick, pixels.</param>
/// <param name="To">The last tick, pixels.</param>
public sealed record RulerScale(double MmPerPixel, double Uncertainty, double LengthMm, Point2 From, Point2 To)
{
    internal const string First = "first tick", Last = "last tick";

    /// <summary>Reads an outcome; null when it holds no answer.</summary>
    public static RulerScale? Of(Outcome outcome)
    {
        if (outcome.NoAnswer is not null) return null;
        Figure Get(string name, string? subject = null) => outcome.Figures.Single(f => f.Name == name && f.Subject == subject);
        Point2 End(string which) => new(Get("end-x", which).Value!.Value, Get("end-y", which).Value!.Value);
        var scale = Get("mm-per-pixel");
        return new RulerScale(scale.Value!.Value, scale.Uncertainty!.Value, Get("length").Value!.Value, End(First), End(Last));
    }
}
