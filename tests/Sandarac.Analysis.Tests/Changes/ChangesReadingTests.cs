using Sandarac.Analysis.Changes;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Changes;

public class ChangesReadingTests
{
    private const int Width = 320, Height = 240;

    private static string File(TempFolder folder, string name, Plane[] light) =>
        TestTiff.Write16(folder[name], [.. light.Select(b => b.Select(v => (float)(65535 * Imaging.Colour.Srgb.ToEncoded(Math.Clamp(v, 0, 1)))))]);

    private static (Outcome Outcome, Dictionary<string, Plane[]> Rasters) Run(TempFolder folder, Plane[] baseline, Plane[] later, Light? light = null, Tiling? tiling = null)
    {
        var (a, b) = (File(folder, $"a{Guid.NewGuid():N}.tif", baseline), File(folder, $"b{Guid.NewGuid():N}.tif", later));
        return TestRun.Of(new ChangesReading(), [("baseline", TestRun.Open(a, Light.Visible, 0.4)), ("later", TestRun.Open(b, light ?? Light.Visible, 0.4))], tiling: tiling);
    }

    [Fact]
    public void A_spot_and_nothing_else_is_proposed()
    {
        using var folder = new TempFolder();
        var (outcome, rasters) = Run(folder, TwoStates.Picture(Width, Height).Noisy(1), TwoStates.Picture(Width, Height, 0.2, 0.1).WithDisc(200, 90, 4, 0.7).Noisy(2));
        var candidate = Assert.Single(outcome.Candidates);
        Assert.StartsWith("Darker by dE", candidate.Reason, StringComparison.Ordinal);
        Assert.Contains("Consistent with", candidate.Reason, StringComparison.Ordinal);
        Assert.True(candidate.Geometry.EnvelopeInternal.Contains(200 * 0.4, 90 * 0.4));
        Assert.Equal(1, candidate.Geometry.Area / (Math.PI * 16 * 0.16), 0.3);
        Assert.True(rasters["limit"][0][200, 90] > 1);
        Assert.InRange(outcome.Figures.First(f => f.Name == "smallest-change" && f.Subject == "disc of 5 mm").Value!.Value, 0.5, 2);
    }

    [Fact]
    public void Nothing_is_proposed_where_only_camera_and_light_changed()
    {
        using var folder = new TempFolder();
        var later = TwoStates.Picture(Width, Height, 0.3, -0.2).Select((b, k) => b.Select(v => v * (0.7f + 0.05f * k))).ToArray().Noisy(5, 1e-6, 4e-5);
        Assert.Empty(Run(folder, TwoStates.Picture(Width, Height).Noisy(4), later).Outcome.Candidates);
    }

    [Fact]
    public void The_same_numbers_whatever_the_threads()
    {
        using var folder = new TempFolder();
        var (baseline, later) = (TwoStates.Picture(Width, Height).Noisy(1), TwoStates.Picture(Width, Height).WithDisc(100, 90, 5, 1.2).Noisy(2));
        var (one, many) = (Run(folder, baseline, later, tiling: new Tiling(64, 1)), Run(folder, baseline, later, tiling: new Tiling(512, 4)));
        Assert.Equal(one.Rasters["limit"][0].Data, many.Rasters["limit"][0].Data);
        Assert.Equal(one.Outcome.Figures, many.Outcome.Figures);
        Assert.Equal(one.Outcome.Candidates.Select(c => c.Reason), many.Outcome.Candidates.Select(c => c.Reason));
    }

    [Fact]
    public void No_answer_rather_than_a_wrong_one()
    {
        using var folder = new TempFolder();
        var picture = TwoStates.Picture(Width, Height).Noisy(1);
        Assert.Contains("different lights", Run(folder, picture, picture, Light.Infrared).Outcome.NoAnswer, StringComparison.Ordinal);
        Assert.Contains("aligned", Run(folder, picture, TwoStates.Picture(Width, Height, 37, 21).Noisy(2)).Outcome.NoAnswer, StringComparison.Ordinal);
        Plane[] part = [.. picture.Select(b => Synthetic.Of(Width, Height, (x, y) => x < 60 ? b[(int)x, (int)y] : 0))];
        Assert.Contains("Only", Run(folder, picture, part).Outcome.NoAnswer, StringComparison.Ordinal);
        Plane[] Grain(int seed) => [.. picture.Select((_, b) => Synthetic.Of(Width, Height, Chance(10 * seed + b)))];
        Assert.Contains("above their noise", Run(folder, Grain(1), Grain(2)).Outcome.NoAnswer, StringComparison.Ordinal);
        var (same, none) = Run(folder, picture, picture);
        Assert.Contains("are one", same.NoAnswer, StringComparison.Ordinal);
        Assert.Equal(("compared", 0), (Assert.Single(same.Figures).Name, none.Count));
        Plane[] even = [.. picture.Select(b => b.Select(_ => 0.4f))];
        Assert.NotNull(Run(folder, even, even).Outcome.NoAnswer);
        Plane[] tiny = [.. Enumerable.Range(0, 3).Select(_ => new Plane(1, 1, [0.4f]))];
        Assert.NotNull(Run(folder, tiny, tiny).Outcome.NoAnswer);
        Assert.Contains("bands", Run(folder, picture, [picture[0]]).Outcome.NoAnswer, StringComparison.Ordinal);
    }

    /// <summary>Two films of grain alone share nothing, whatever is matched.</summary>
    private static Func<double, double, double> Chance(int seed)
    {
        var dice = new Random(seed);
        return (_, _) => 0.1 + 0.8 * dice.NextDouble();
    }
}
