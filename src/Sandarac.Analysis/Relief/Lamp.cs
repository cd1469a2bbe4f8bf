using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>Where the light of a photograph comes from: a unit vector from the painting towards a lamp far away. x right, y down, z towards the viewer.</summary>
/// <param name="X">To the right.</param>
/// <param name="Y">Down.</param>
/// <param name="Z">Towards the viewer.</param>
public readonly record struct Lamp(double X, double Y, double Z)
{
    /// <summary>From angles.</summary>
    /// <param name="azimuth">Degrees clockwise seen from the front, 0 from the top edge.</param>
    /// <param name="elevation">Degrees above the plane.</param>
    public static Lamp FromAngles(double azimuth, double elevation)
    {
        var ((sin, cos), (up, flat)) = (Math.SinCos(azimuth * Math.PI / 180), Math.SinCos(elevation * Math.PI / 180));
        return new Lamp(sin * flat, -cos * flat, up);
    }

    /// <summary>Towards a direction of any length.</summary>
    /// <exception cref="InputProblem">The vector is zero or not finite.</exception>
    public static Lamp Towards(double x, double y, double z)
    {
        var length = Math.Sqrt(x * x + y * y + z * z);
        return length > 0 && double.IsFinite(length) ? new Lamp(x / length, y / length, z / length)
            : throw new InputProblem("lamp-direction", "lamp", "A lamp's direction is zero or not a number.", "Give azimuth and elevation in degrees, or a position in mm.");
    }

    /// <summary>Degrees clockwise from the top edge, 0 to 360.</summary>
    public double Azimuth => (Math.Atan2(X, -Y) * 180 / Math.PI + 360) % 360;

    /// <summary>Degrees above the plane.</summary>
    public double Elevation => Math.Asin(Math.Clamp(Z, -1, 1)) * 180 / Math.PI;

    /// <summary>Angle to another lamp, degrees.</summary>
    public double AngleTo(Lamp other)
    {
        var (cx, cy, cz) = (Y * other.Z - Z * other.Y, Z * other.X - X * other.Z, X * other.Y - Y * other.X);
        return Math.Atan2(Math.Sqrt(cx * cx + cy * cy + cz * cz), X * other.X + Y * other.Y + Z * other.Z) * 180 / Math.PI;
    }
}
