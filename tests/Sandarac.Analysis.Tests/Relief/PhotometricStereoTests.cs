using Sandarac.Analysis.Relief;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Relief;

/// <summary>Against the sphere's own normals (analytic).</summary>
public class PhotometricStereoTests
{
    [Theory]
    [InlineData(5, 60)]
    [InlineData(12, 45)]
    public void Known_sphere_without_noise_to_a_ten_thousandth_of_a_degree(int count, double elevation)
    {
        var lamps = SphereScene.Ring(count, elevation);
        var found = PhotometricStereo.Solve([.. lamps.Select(l => SphereScene.Photograph(l))], new LampSet(lamps, SphereScene.Names(count), false));
        var errors = SphereScene.Errors(found, lamps);
        Say($"{count} lamps at {elevation} degrees: mean {errors.Average():0.0e+0}, greatest {errors.Max():0.0e+0} degrees over {errors.Count} pixels");
        Assert.InRange(errors.Average(), 0, 1e-4);
        Assert.InRange(found.Albedo[60, 60], 0.6f - 1e-5f, 0.6f + 1e-5f);
        Assert.InRange(found.Confidence[60, 60], 1 - 1e-5f, 1);
    }

    /// <summary>Gloss after Blinn (SIGGRAPH 1977), cast shadow over a third of one photograph, noise, one photograph clipped: plain least squares is the witness of what robustness is worth.</summary>
    [Fact]
    public void Gloss_shadow_noise_and_clipping_cost_less_than_plain_least_squares()
    {
        var (lamps, dice) = (SphereScene.Ring(12, 40), new Random(3));
        Plane Photograph(Lamp l, int k)
        {
            var half = Lamp.Towards(l.X, l.Y, l.Z + 1);
            var plane = SphereScene.Photograph(l, (lambert, n) => lambert <= 0 ? 0 : lambert + 0.8 * Math.Pow(n.X * half.X + n.Y * half.Y + n.Z * half.Z, 40) + 0.004 * (dice.NextDouble() - 0.5)).Select(v => v > 0.9f ? float.NaN : v);
            for (var y = 0; k == 4 && y < 40; y++) plane.Row(y).Clear();
            return plane;
        }
        var (photographs, set) = (lamps.Select(Photograph).ToList(), new LampSet(lamps, SphereScene.Names(12), false));
        var (robust, plain) = (SphereScene.Errors(PhotometricStereo.Solve(photographs, set), lamps, 7), SphereScene.Errors(PhotometricStereo.Solve(photographs, set, robust: false), lamps, 7));
        Say($"mean {robust.Average():0.00}, plain least squares {plain.Average():0.00} degrees");
        Assert.InRange(robust.Average(), 0, 0.6 * plain.Average());
    }

    [Fact]
    public void Known_near_lamps()
    {
        // A tilted plane of slope 0.1 under lamps 300 mm away: albedo (n . l) / l_z relative to the board, whatever the distance.
        (double X, double Y, double Z)[] positions = [(-200, 50, 200), (300, 50, 180), (50, -220, 190), (50, 320, 200)];
        var set = LampSet.Near(positions, SphereScene.Names(4), true, 1, (50, 50));
        var normal = Lamp.Towards(-0.1, 0, 1);
        var light = positions.Select(p => Synthetic.Of(100, 100, (x, y) =>
        {
            var l = Lamp.Towards(p.X - x, p.Y - y, p.Z);
            return 0.5 * (l.X * normal.X + l.Z * normal.Z) / l.Z;
        })).ToList();
        var found = PhotometricStereo.Solve(light, set);
        Assert.All(found.X.Data, v => Assert.Equal(normal.X, v, 1e-5));
        Assert.All(found.Y.Data, v => Assert.Equal(0, v, 1e-5));
        var part = PhotometricStereo.Solve([.. light.Select(p => new Plane(100, 1, p.Row(37).ToArray()))], set, 0, 37);
        Assert.Equal(found.X.Row(37).ToArray(), part.X.Data);
    }

    [Fact]
    public void Extreme_places_have_no_normal()
    {
        var lamps = SphereScene.Ring(4, 30);
        Plane[] light = [.. lamps.Select(_ => new Plane(5, 1, [0.5f, float.NaN, 0, 0.5f, 0.5f]))];
        (light[0].Data[3], light[1].Data[3]) = (float.NaN, float.NaN);
        light[0].Data[4] = float.NaN;
        var found = PhotometricStereo.Solve(light, new LampSet(lamps, SphereScene.Names(4), true));
        Assert.Equal([true, false, false, false, true], found.X.Data.Select(float.IsFinite));
        Assert.Equal(0.5f, found.Confidence.Data[4], 1e-5f);
        Assert.Equal(found.X.Data.Select(float.IsFinite), found.Confidence.Data.Select(float.IsFinite));
    }

    private static void Say(FormattableString text) => TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant(text));
}
