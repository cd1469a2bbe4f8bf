using Sandarac.Analysis.Relief;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Relief;

public class LampTests
{
    [Theory]
    [InlineData(0, 0, -1)]
    [InlineData(90, 1, 0)]
    [InlineData(180, 0, 1)]
    [InlineData(270, -1, 0)]
    public void Known_directions(double azimuth, double x, double y)
    {
        var lamp = Lamp.FromAngles(azimuth, 30);
        Assert.Equal((x * Math.Sqrt(0.75), y * Math.Sqrt(0.75), 0.5), (lamp.X, lamp.Y, lamp.Z), (a, b) => Math.Abs(a.Item1 - b.Item1) + Math.Abs(a.Item2 - b.Item2) + Math.Abs(a.Item3 - b.Item3) < 1e-12);
        Assert.Equal((azimuth, 30), (Math.Round(lamp.Azimuth, 9) % 360, Math.Round(lamp.Elevation, 9)));
    }

    [Theory]
    [InlineData("lamp-count", 2, 15, 15)]
    [InlineData("lamp-count", 61, 15, 15)]
    [InlineData("lamp-horizon", 4, 15, -3)]
    [InlineData("lamps-coplanar", 4, 15, 165)]
    public void Invalid_lamps_are_refused_with_the_remedy(string code, int count, double elevation, double second)
    {
        // 165 degrees is 15 degrees from the other side: all lamps in the plane through left and right.
        var lamps = Enumerable.Range(0, count).Select(k => code == "lamps-coplanar" ? Lamp.FromAngles(90, k % 2 == 0 ? elevation + k : second) : Lamp.FromAngles(47 * k, k == 1 ? second : elevation)).ToList();
        var problem = Assert.Throws<InputProblem>(() => new LampSet(lamps, SphereScene.Names(count), true));
        Assert.Equal(code, problem.Code);
        Assert.NotEmpty(problem.Remedy);
    }

    [Fact]
    public void Known_lamp_from_a_mirror_ball_and_from_a_matte_one()
    {
        var (lamp, ball) = (Lamp.FromAngles(250, 50), new LampBall(SphereScene.Side / 2.0, SphereScene.Side / 2.0, SphereScene.Radius));
        Assert.InRange(ball.FromMatte(SphereScene.Photograph(lamp)).AngleTo(lamp), 0, 1e-3);
        // A highlight some pixels wide about the normal that halves the angle between lamp and viewer, and a weaker window elsewhere.
        var half = Lamp.Towards(lamp.X, lamp.Y, lamp.Z + 1);
        var mirror = SphereScene.Photograph(lamp, (_, n) => Math.Exp(-500 * (Math.Pow(n.X - half.X, 2) + Math.Pow(n.Y - half.Y, 2))) + (n.X > 0.6 && n.Y > 0.3 ? 0.5 : 0.02));
        Assert.InRange(ball.FromMirror(mirror).AngleTo(lamp), 0, 0.3);
        Assert.Equal("ball-dark", Assert.Throws<InputProblem>(() => ball.FromMirror(new Plane(120, 120))).Code);
        Assert.Equal("ball-dark", Assert.Throws<InputProblem>(() => (ball with { CentreX = 900 }).FromMatte(mirror)).Code);
    }
}
