namespace Sandarac.Materials.Solvents;

/// <summary>A point in which Euclid's distance is the distance of one of the two systems.</summary>
internal readonly record struct Place(double X, double Y, double Z)
{
    /// <summary>In Hansen's space, dispersion counting twice.</summary>
    public static Place Of(HansenParameters h) => new(2 * h.Dispersion, h.Polar, h.Hydrogen);

    /// <summary>On the triangle with sides of 100.</summary>
    public static Place Of(TeasFractions t) => new(t.Dispersion * Scale, t.Polar * Scale, t.Hydrogen * Scale);

    private static readonly double Scale = 1 / Math.Sqrt(2);

    public static Place operator +(Place a, Place b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static Place operator -(Place a, Place b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static Place operator *(double s, Place a) => new(s * a.X, s * a.Y, s * a.Z);

    public static double Dot(Place a, Place b) => a.X * b.X + a.Y * b.Y + a.Z * b.Z;
}

/// <summary>
/// The mixture of given solvents that lies nearest a target. Mixing by volume reaches the line or the triangle between the solvents' places, so this is the nearest point of a segment or a triangle: a convex quadratic
/// programme solved in closed form, its active set being the side on which the target's foot falls. Weights are of the second and third solvent.
/// </summary>
internal static class Nearest
{
    /// <summary>A triangle is taken for a line when the sine of its angle, squared, is below this.</summary>
    private const double Flat = 1e-12;

    /// <summary>Nearest point of the segment between two places, from the target at the origin.</summary>
    public static (double Squared, double Second) OnSegment(Place a, Place b)
    {
        var side = b - a;
        var length = Place.Dot(side, side);
        var t = length > 0 ? Math.Clamp(-Place.Dot(a, side) / length, 0, 1) : 0;
        var foot = a + t * side;
        return (Place.Dot(foot, foot), t);
    }

    /// <summary>Nearest point of the triangle between three places, from the target at the origin.</summary>
    public static (double Squared, double Second, double Third) OnTriangle(Place a, Place b, Place c)
    {
        var (u, v) = (b - a, c - a);
        var (uu, uv, vv, ua, va) = (Place.Dot(u, u), Place.Dot(u, v), Place.Dot(v, v), Place.Dot(u, a), Place.Dot(v, a));
        var det = uu * vv - uv * uv;
        if (det > Flat * uu * vv)
        {
            var (second, third) = ((uv * va - vv * ua) / det, (uv * ua - uu * va) / det);
            if (second >= 0 && third >= 0 && second + third <= 1)
            {
                var foot = a + second * u + third * v;
                return (Place.Dot(foot, foot), second, third);
            }
        }
        var (ab, ac, bc) = (OnSegment(a, b), OnSegment(a, c), OnSegment(b, c));
        return ab.Squared <= ac.Squared && ab.Squared <= bc.Squared ? (ab.Squared, ab.Second, 0) : ac.Squared <= bc.Squared ? (ac.Squared, 0, ac.Second) : (bc.Squared, 1 - bc.Second, bc.Second);
    }
}
