using Sandarac.Analysis.Relief;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Relief;

/// <summary>A real matte sphere under twelve real lamps (course data of the University of Washington, read in place) against its analytic normals, beside plain least squares on the same pixels.</summary>
public class RealSphereTests
{
    private const double CentreX = 244.5, CentreY = 144.5, Radius = 108;

    [Fact]
    public void Matte_sphere_with_the_lamps_given_and_from_the_mirror_ball()
    {
        var given = File.ReadLines(SharedData.Require("photometric", "lights.txt")).Skip(1).Where(l => l.Length > 0)
            .Select(l => l.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(v => double.Parse(v, System.Globalization.CultureInfo.InvariantCulture)).ToArray()).Select(v => Lamp.Towards(v[0], -v[1], v[2])).ToList();
        var grey = Photographs("gray");
        // The mirror ball's circle by the bounds of its mask.
        var mask = Tga("photometric", "chrome", "chrome.mask.tga");
        var inside = Enumerable.Range(0, mask.Data.Length).Where(i => mask.Data[i] > 0.5).ToList();
        var (left, right, top, bottom) = (inside.Min(i => i % mask.Width), inside.Max(i => i % mask.Width) + 1, inside.Min(i => i / mask.Width), inside.Max(i => i / mask.Width) + 1);
        var ball = new LampBall((left + right) / 2.0, (top + bottom) / 2.0, (right - left + bottom - top) / 4.0);
        var measured = Photographs("chrome").Select(ball.FromMirror).ToList();
        Say($"lamps from the mirror ball lie {string.Join(" ", measured.Zip(given, (m, g) => $"{m.AngleTo(g):0.0}"))} degrees from those given");
        var (robust, plain) = (Errors(grey, given, true), Errors(grey, given, false));
        var (fromBall, plainFromBall) = (Errors(grey, measured, true), Errors(grey, measured, false));
        Say($"lamps given: mean {robust.Average():0.00} median {Median(robust):0.00}, plain least squares {plain.Average():0.00} {Median(plain):0.00} degrees over {robust.Count} pixels");
        Say($"lamps from the mirror ball: mean {fromBall.Average():0.00} median {Median(fromBall):0.00}, plain least squares {plainFromBall.Average():0.00} {Median(plainFromBall):0.00}");
        Assert.True(robust.Average() < plain.Average() && fromBall.Average() < plainFromBall.Average());
    }

    private static List<double> Errors(Plane[] light, List<Lamp> lamps, bool robust)
    {
        var found = PhotometricStereo.Solve(light, new LampSet(lamps, SphereScene.Names(lamps.Count), false), robust: robust);
        var mask = Tga("photometric", "gray", "gray.mask.tga");
        var errors = new List<double>();
        for (var y = 0; y < mask.Height; y++)
            for (var x = 0; x < mask.Width; x++)
            {
                var (nx, ny) = ((x - CentreX) / Radius, (y - CentreY) / Radius);
                if (mask[x, y] < 0.5 || nx * nx + ny * ny >= 1 || !float.IsFinite(found.X[x, y])) continue;
                var (fx, fy) = ((double)found.X[x, y], (double)found.Y[x, y]);
                errors.Add(new Lamp(fx, fy, Math.Sqrt(Math.Max(0, 1 - fx * fx - fy * fy))).AngleTo(new Lamp(nx, ny, Math.Sqrt(1 - nx * nx - ny * ny))));
            }
        return errors;
    }

    private static double Median(List<double> values) => values.Order().ElementAt(values.Count / 2);

    private static Plane[] Photographs(string name) => [.. Enumerable.Range(0, 12).Select(k => Tga("photometric", name, FormattableString.Invariant($"{name}.{k}.tga")))];

    /// <summary>Uncompressed or run-length true-colour Truevision TGA, mean of the three bands, first row at the top.</summary>
    private static Plane Tga(params string[] path)
    {
        var bytes = File.ReadAllBytes(SharedData.Require(path));
        var (width, height, step, at) = (bytes[12] | bytes[13] << 8, bytes[14] | bytes[15] << 8, bytes[16] / 8, 18 + bytes[0]);
        var pixels = new List<byte>(width * height * step);
        if (bytes[2] is 2 or 3) pixels.AddRange(bytes[at..(at + width * height * step)]);
        while (pixels.Count < width * height * step)
        {
            var (head, count) = (bytes[at], (bytes[at++] & 127) + 1);
            for (var k = 0; k < count; k++) pixels.AddRange(bytes[(head < 128 ? at + k * step : at)..(head < 128 ? at + (k + 1) * step : at + step)]);
            at += head < 128 ? count * step : step;
        }
        var fromTop = (bytes[17] & 32) != 0;
        return Synthetic.Of(width, height, (x, y) => Enumerable.Range(0, Math.Min(3, step)).Average(b => pixels[((fromTop ? (int)y : height - 1 - (int)y) * width + (int)x) * step + b] / 255.0));
    }

    private static void Say(FormattableString text) => TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant(text));
}
