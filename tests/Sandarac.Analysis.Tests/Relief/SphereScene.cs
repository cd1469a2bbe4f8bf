using Sandarac.Analysis.Relief;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Relief;

/// <summary>A sphere whose normals are known, photographed by Lambert's law.</summary>
internal static class SphereScene
{
    public const int Side = 120;
    public const double Radius = 55;

    /// <summary>Lamps all round at one elevation, as raking light is.</summary>
    public static List<Lamp> Ring(int count, double elevation) => [.. Enumerable.Range(0, count).Select(k => Lamp.FromAngles(360.0 * k / count, elevation))];

    public static List<string> Names(int count) => [.. Enumerable.Range(0, count).Select(k => $"lamp {k}")];

    /// <summary>The normal at a pixel; null beside the sphere.</summary>
    public static (double X, double Y, double Z)? Normal(int x, int y)
    {
        var (nx, ny) = ((x + 0.5 - Side / 2.0) / Radius, (y + 0.5 - Side / 2.0) / Radius);
        return nx * nx + ny * ny < 1 ? (nx, ny, Math.Sqrt(1 - nx * nx - ny * ny)) : null;
    }

    public static Plane Photograph(Lamp l, Func<double, (double X, double Y, double Z), double>? seen = null)
    {
        var plane = new Plane(Side, Side);
        for (var y = 0; y < Side; y++)
            for (var x = 0; x < Side; x++)
                if (Normal(x, y) is { } n)
                {
                    var lambert = 0.6 * Math.Max(0, n.X * l.X + n.Y * l.Y + n.Z * l.Z);
                    plane[x, y] = (float)(seen is null ? lambert : seen(lambert, n));
                }
        return plane;
    }

    /// <summary>Angles to the true normals, degrees, where three lamps at least are not in the sphere's own shadow.</summary>
    public static List<double> Errors(SurfaceNormals found, IReadOnlyList<Lamp> lamps, int least = 3)
    {
        var errors = new List<double>();
        for (var y = 0; y < Side; y++)
            for (var x = 0; x < Side; x++)
                if (Normal(x, y) is { } n && lamps.Count(l => n.X * l.X + n.Y * l.Y + n.Z * l.Z > 0.15) >= least)
                {
                    var (nx, ny) = ((double)found.X[x, y], (double)found.Y[x, y]);
                    errors.Add(new Lamp(nx, ny, Math.Sqrt(Math.Max(0, 1 - nx * nx - ny * ny))).AngleTo(new Lamp(n.X, n.Y, n.Z)));
                }
        return errors;
    }
}
