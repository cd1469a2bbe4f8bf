namespace Sandarac.Analysis.Brushwork;

/// <summary>Directions without an arrow: means of doubled angles (Mardia and Jupp, Directional Statistics, 2000, section 1.4, from memory).</summary>
internal static class Axial
{
    /// <summary>Mean direction, radians, 0 to pi, and how well the directions agree, 0 to 1 (the resultant's length).</summary>
    /// <param name="angles">Directions, radians; NaN is left out.</param>
    public static (double Angle, double Agreement) Mean(IEnumerable<double> angles)
    {
        var (cos, sin, count) = (0.0, 0.0, 0);
        foreach (var a in angles)
            if (double.IsFinite(a)) (cos, sin, count) = (cos + Math.Cos(2 * a), sin + Math.Sin(2 * a), count + 1);
        return count == 0 ? (double.NaN, 0) : (Between0AndPi(0.5 * Math.Atan2(sin, cos)), Math.Sqrt(cos * cos + sin * sin) / count);
    }

    /// <summary>Spread of directions, radians: half of the circular standard deviation of the doubled angles.</summary>
    public static double Spread(double agreement) => Math.Sqrt(-2 * Math.Log(Math.Max(agreement, 1e-12))) / 2;

    /// <summary>The angle between two directions, radians, 0 to pi/2.</summary>
    public static double Between(double a, double b) => Math.Abs(Math.IEEERemainder(a - b, Math.PI));

    /// <summary>The same direction as an angle from 0 to below pi.</summary>
    public static double Between0AndPi(double a) => a - Math.PI * Math.Floor(a / Math.PI);

    /// <summary>As people say it: degrees anticlockwise from the horizontal as seen from the front, 0 to below 180.</summary>
    /// <param name="angle">Radians from x towards y, y down.</param>
    public static double Degrees(double angle) => 180 / Math.PI * Between0AndPi(-angle);
}
