using System.Globalization;
using System.Text.RegularExpressions;
using NetTopologySuite.Geometries;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Plans.Drawing;

namespace Sandarac.Studio.Tests.Plans;

/// <summary>A patch of a hatch as a printer would set it: from the drawing's own path, at 300 dots to the inch, without the code that draws it.</summary>
internal static partial class Patch
{
    public const int Side = 128;

    private const double DotsPerMm = 300 / 25.4;

    /// <summary>Points across a dot that are looked at.</summary>
    private const int Fine = 4;

    /// <summary>Share of ink in each dot, 0 to 1, of a patch whose upper left corner is a place on the sheet.</summary>
    public static float[] Of(Hatch hatch, double x = 0, double y = 0)
    {
        var (fine, bold) = HatchLines.Over(hatch, GeometryFactory.Default.ToGeometry(new Envelope(x - 1, x + 12, y - 1, y + 12)));
        var ink = new bool[Side * Fine * Side * Fine];
        foreach (var (path, width) in new[] { (fine, Hatch.FineMm), (bold, Hatch.BoldMm) })
            foreach (var line in Lines(path))
                for (var i = 0; i + 1 < line.Count; i++) Draw(ink, line[i].X - x, line[i].Y - y, line[i + 1].X - x, line[i + 1].Y - y, width / 2);
        var shares = new float[Side * Side];
        for (var p = 0; p < ink.Length; p++)
            if (ink[p]) shares[p / (Side * Fine) / Fine * Side + p % (Side * Fine) / Fine] += 1f / (Fine * Fine);
        return shares;
    }

    private static void Draw(bool[] ink, double x0, double y0, double x1, double y1, double half)
    {
        const double Scale = DotsPerMm * Fine;
        int Least(double a, double b) => Math.Max(0, (int)((Math.Min(a, b) - half) * Scale));
        int Most(double a, double b) => Math.Min(Side * Fine - 1, (int)((Math.Max(a, b) + half) * Scale));
        var (dx, dy) = (x1 - x0, y1 - y0);
        var length2 = dx * dx + dy * dy;
        for (var row = Least(y0, y1); row <= Most(y0, y1); row++)
            for (var column = Least(x0, x1); column <= Most(x0, x1); column++)
            {
                var (px, py) = ((column + 0.5) / Scale - x0, (row + 0.5) / Scale - y0);
                var t = length2 == 0 ? 0 : Math.Clamp((px * dx + py * dy) / length2, 0, 1);
                if (Math.Pow(px - t * dx, 2) + Math.Pow(py - t * dy, 2) <= half * half) ink[row * Side * Fine + column] = true;
            }
    }

    private static IEnumerable<IReadOnlyList<(double X, double Y)>> Lines(string path) =>
        path.Split('M', StringSplitOptions.RemoveEmptyEntries).Select(line => (IReadOnlyList<(double, double)>)[.. Places().Matches(line).Select(m => (Number(m.Groups[1].Value), Number(m.Groups[2].Value)))]);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"(-?[\d.]+) (-?[\d.]+)")]
    private static partial Regex Places();
}
