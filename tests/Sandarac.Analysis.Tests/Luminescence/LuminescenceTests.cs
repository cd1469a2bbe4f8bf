using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Luminescence;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Luminescence;

public class LuminescenceTests
{
    /// <summary>Differences within blocks give what a regression with one constant for each block gives: the theorem of Frisch and Waugh (Econometrica 1 (1933) 387)
    /// and Lovell (J. American Statistical Association 58 (1963) 993). The other way is solved by MathNet's QR.</summary>
    [Fact]
    public void Known_differences_within_blocks_are_a_regression_with_a_constant_for_each()
    {
        var random = new Random(4);
        Plane Random() => Synthetic.Of(48, 24, (_, _) => 0.1 + 0.8 * random.NextDouble());
        Plane[] visible = [Random(), Random()];
        var glow = Random();
        var samples = ColourSamples.Of(glow, visible);
        double[] weights = [.. Enumerable.Range(0, samples.Count).Select(_ => random.NextDouble())];
        var ours = samples.Centred(weights).Solve(weights)!;
        var (design, right) = (Matrix<double>.Build.Dense(samples.Count, 7), Vector<double>.Build.Dense(samples.Count));
        for (var k = 0; k < samples.Count; k++)
        {
            var (terms, w) = (new double[5], Math.Sqrt(weights[k]));
            ColourSamples.Terms([Math.Log(visible[0].Data[k]), Math.Log(visible[1].Data[k])], terms);
            for (var t = 0; t < 5; t++) design[k, t] = w * terms[t];
            design[k, k % 48 < 24 ? 5 : 6] = w;
            right[k] = w * Math.Log(glow.Data[k]);
        }
        var witness = design.QR().Solve(right);
        for (var t = 0; t < 5; t++) Assert.Equal(witness[t], ours[t], 1e-6 * Math.Max(1, Math.Abs(witness[t])));
    }

    [Fact]
    public void Parts_hang_together_by_sides_and_threads_are_cut_off()
    {
        var plane = Synthetic.Of(40, 20, (x, y) => x is > 3 and < 13 && y is > 3 and < 13 && !(x is > 7 and < 9 && y is > 7 and < 9) ? -1 : x is > 20 and < 24 && y is > 3 and < 16 || y is > 9 and < 10 && x > 12 ? -1 : 0);
        var parts = DarkParts.Of(plane, -0.5f, 4);
        Assert.Equal(2, parts.Count);
        // Ten by ten less a hole of two by two; four by thirteen. The thread of one pixel that joins them is gone.
        Assert.Equal(96, parts[0].Pixels.Count);
        Assert.Equal(52, parts[1].Pixels.Count);
        var outline = PartOutline.Of(parts[0], plane.Width, 0.5);
        Assert.Equal(0.25 * 96, outline.Area, 1e-9);
        Assert.Equal(1.5, outline.EnvelopeInternal.MinX, 1e-9);
    }

    /// <summary>Beside scipy.ndimage.median_filter, SciPy 1.10.1 (size=3), inside the border; at the border SciPy mirrors and we take what there is.</summary>
    [Fact]
    public void Known_running_median()
    {
        double[] values = [5, 1, 8, 3, 9, 2, 7, 4, 6, 0, 3, 3, 8, 1, 5, 9, 6, 2, 7, 4];
        var plane = Synthetic.Of(5, 4, (x, y) => values[(int)y * 5 + (int)x]);
        var median = MedianFilter.Of(plane, 3);
        float[] witness = [4, 4, 5, 4, 6, 4];
        for (var y = 1; y < 3; y++)
            for (var x = 1; x < 4; x++) Assert.Equal(witness[(y - 1) * 3 + x - 1], median[x, y]);
        Assert.Equal(3.5f, median[0, 0]);
        plane[2, 1] = float.NaN;
        Assert.True(float.IsNaN(MedianFilter.Of(plane, 3)[2, 1]));
        Assert.True(float.IsFinite(MedianFilter.Of(plane, 3)[1, 1]));
    }

    /// <summary>By hand: medians 2 and 12, mean deviation 2/3: 15. Six even values reach 13 in one of twenty.</summary>
    [Fact]
    public void Places_are_told_apart_only_when_they_fall_into_two_groups()
    {
        Assert.Equal([Veil.Bare, Veil.Veiled, Veil.Bare, Veil.Veiled, Veil.Bare, Veil.Veiled], Split(1, 11, 2, 12, 3, 13));
        Assert.All(Split(1, 2, 3, 4, 5, 6, 7, 8), v => Assert.Equal(Veil.NotTold, v));
        Assert.All(Split(1, 1, 1, 9), v => Assert.Equal(Veil.NotTold, v));
        Assert.All(Split(2, 2, 2, 2), v => Assert.Equal(Veil.NotTold, v));
        Assert.Empty(Split());
    }

    private static IReadOnlyList<Veil> Split(params double[] values) => VeilGroups.Split([.. values.Select(v => (v, 1.0))]);

    /// <summary>Meant to be one of twenty; of 300 draws seldom more than 7 %.</summary>
    [Fact]
    public void One_group_is_seldom_taken_for_two()
    {
        var random = new Random(11);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        var (even, normal) = (0, 0);
        for (var k = 0; k < 300; k++)
        {
            if (Split([.. Enumerable.Range(0, 11).Select(_ => random.NextDouble())])[0] != Veil.NotTold) even++;
            if (Split([.. Enumerable.Range(0, 11).Select(_ => Normal())])[0] != Veil.NotTold) normal++;
        }
        TestContext.Current.SendDiagnosticMessage($"one group taken for two, of 300: even {even}, normal {normal}");
        Assert.InRange(Math.Max(even, normal), 0, 21);
    }

    /// <summary>The model's own equation, with thickness and paint known: what the reading finds follows the thickness.</summary>
    [Fact]
    public void Varnish_is_told_from_paint_by_its_own_equation()
    {
        var random = new Random(5);
        var (tones, paintGlow) = (Enumerable.Range(0, 40).Select(_ => new[] { random.NextDouble(), random.NextDouble(), random.NextDouble() }).ToArray(), Enumerable.Range(0, 40).Select(_ => random.NextDouble()).ToArray());
        // Patches of paint some pixels wide; varnish changes over a hundred.
        int Patch(double x, double y) => ((int)(x / 7) * 31 + (int)(y / 5) * 17) % 40;
        double Q(double x, double y) => Math.Exp(-(0.7 + 0.4 * Math.Sin(x / 60) * Math.Cos(y / 45)));
        Plane Visible(int band) => Synthetic.Of(300, 200, (x, y) => 0.05 + 0.8 * tones[Patch(x, y)][band]);
        Plane[] visible = [Visible(0), Visible(1), Visible(2)];
        double[] varnish = [0.4, 0.8, 0.5], paint = [0.5, 0.4, 0.6];
        Plane Glow(int band) => Synthetic.Of(300, 200, (x, y) => varnish[band] * 0.5 * (1 + visible[band][(int)x, (int)y]) * (1 - Q(x, y)) + paint[band] * paintGlow[Patch(x, y)] * Q(x, y)).AddNoise(0.004, band);
        var map = VarnishModel.Of(new ReducedLight(1, [Glow(0), Glow(1), Glow(2)], visible), 1, new bool[300 * 200], 9)!;
        var places = Enumerable.Range(0, 300 * 200).ToArray();
        var r = MathNet.Numerics.Statistics.Correlation.Pearson(places.Select(i => (double)map.Data[i]), places.Select(i => 1 - Q(i % 300 + 0.5, i / 300 + 0.5)));
        TestContext.Current.SendDiagnosticMessage($"varnish against its own equation: r {r:0.000}");
        Assert.InRange(r, 0.9, 1);
    }

    [Fact]
    public void A_board_divided_by_itself_is_one()
    {
        using var folder = new TempFolder();
        var board = Synthetic.Of(1200, 800, (x, y) => 40000 - 0.02 * (x - 600) * (x - 600) - 0.02 * (y - 400) * (y - 400));
        var path = TestTiff.Write16(folder["board.tif"], board, board, board);
        var (outcome, rasters) = TestRun.Of(new LuminescenceReading(), [("luminescence", Open(path)), ("visible", Open(TestTiff.Write16(folder["v.tif"], [.. Enumerable.Range(1, 3).Select(seed => Noise(seed, 1200, 800))]))), ("luminescence-board", Open(path))]);
        Assert.Null(outcome.NoAnswer);
        for (var i = 0; i < board.Data.Length; i++) Assert.InRange(rasters["corrected"][0].Data[i], 0.95f, 1.05f);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Extreme_without_tones_or_without_data_there_is_no_answer(bool blank)
    {
        using var folder = new TempFolder();
        Plane Same(float value) => Synthetic.Of(100, 80, (_, _) => value);
        var visible = blank ? Same(0.5f) : Same(float.NaN);
        var outcome = TestRun.Of(new LuminescenceReading(), [("luminescence", Open(TestTiff.WriteFloat(folder["u.tif"], Same(0.5f), Same(0.5f), Same(0.5f)))), ("visible", Open(TestTiff.WriteFloat(folder["v.tif"], visible, visible, visible)))]).Outcome;
        Assert.NotNull(outcome.NoAnswer);
    }

    [Theory]
    [InlineData("board-black", 0.0, 300)]
    [InlineData("board-size", 9000.0, 301)]
    public void Invalid_boards_are_refused(string code, double value, int width)
    {
        using var folder = new TempFolder();
        var board = TestTiff.Write16(folder["b.tif"], [.. Enumerable.Range(0, 3).Select(_ => Synthetic.Of(width, 200, (_, _) => value))]);
        var problem = Assert.Throws<InputProblem>(() => TestRun.Of(new LuminescenceReading(),
            [("luminescence", Open(TestTiff.Write16(folder["u.tif"], Noise(1), Noise(2), Noise(3)))), ("visible", Open(TestTiff.Write16(folder["v.tif"], Noise(4), Noise(5), Noise(6)))), ("luminescence-board", Open(board))]));
        Assert.Equal(code, problem.Code);
    }

    [Fact]
    public void Invalid_without_a_scale_a_size_in_mm_is_refused()
    {
        using var folder = new TempFolder();
        var path = TestTiff.Write16(folder["u.tif"], Noise(1), Noise(2), Noise(3));
        Assert.Equal("no-scale", Assert.Throws<InputProblem>(() => TestRun.Of(new LuminescenceReading(), [("luminescence", TestRun.Open(path)), ("visible", TestRun.Open(path))])).Code);
    }

    /// <summary>Smooth fields of tones, so that the visible light varies.</summary>
    private static Plane Noise(int seed, int width = 300, int height = 200) => Synthetic.Of(width, height, (x, y) => 20000 + 8000 * Math.Sin(x / (7 + seed)) + 6000 * Math.Cos(y / (5 + 2 * seed))).AddNoise(300, seed);

    private static InputImage Open(string path) => TestRun.Open(path, null, 0.2);
}
