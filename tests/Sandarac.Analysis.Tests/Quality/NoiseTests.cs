using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Quality;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Quality;

public class NoiseTests
{
    /// <summary>Noise of known standard deviation on a smooth picture with a few structures: recovered within its own interval and 3 %.</summary>
    [Theory]
    [InlineData(50)]
    [InlineData(300)]
    [InlineData(1500)]
    public void Known_noise_is_recovered_at_every_level(double sigma)
    {
        var figures = Figures(Synthetic.Of(1024, 768, Scene).AddNoise(sigma, 3));
        var noise = figures.Where(f => f.Name == "noise").ToArray();
        Assert.Equal(3, noise.Length);
        foreach (var f in noise)
        {
            TestContext.Current.SendDiagnosticMessage($"{f.Subject}: {f.Value} +- {f.Uncertainty}; {f.Note}");
            Assert.InRange(f.Value!.Value, 0.97 * sigma, 1.03 * sigma);
            Assert.InRange(f.Uncertainty!.Value, 0, 0.05 * sigma);
        }
    }

    [Fact]
    public void Known_noise_that_grows_with_the_signal_is_recovered_by_level()
    {
        var random = new Random(4);
        var scene = Synthetic.Of(1536, 1024, (x, y) => 4000 + 50000 * x / 1536);
        // Photon noise: variance proportional to the signal.
        var noisy = scene.Select(v => (float)(v + Math.Sqrt(v * 4) * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble())));
        var noise = Figures(noisy).Where(f => f.Name == "signal-to-noise").ToArray();
        foreach (var f in noise)
        {
            // Signal over noise is sqrt(level / 4) at each level: recompute the level from the figure itself.
            var level = f.Value!.Value * f.Value.Value * 4;
            TestContext.Current.SendDiagnosticMessage($"{f.Subject}: {f.Value} level {level}");
            Assert.InRange(level, 4000, 54000);
        }
        Assert.True(noise[0].Value < noise[1].Value && noise[1].Value < noise[2].Value);
    }

    /// <summary>scikit-image's estimate on the same picture (References/scikit-image/SOURCE.md). Another mask, so it need not be equal: within 3 %.</summary>
    [Fact]
    public void Noise_agrees_with_scikit_image()
    {
        foreach (var line in File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "scikit-image", "noise.csv")))
        {
            var numbers = line.Split(',').Select(f => double.Parse(f, CultureInfo.InvariantCulture)).ToArray();
            var state = 12345UL;
            var picture = Synthetic.Of(256, 192, (x, y) =>
            {
                double sum = 0;
                for (var k = 0; k < 12; k++)
                {
                    state = state * 6364136223846793005 + 1442695040888963407;
                    sum += (state >> 33) / 2147483648.0;
                }
                return Math.Round(20000 + 40 * (x - 0.5) + 25 * (y - 0.5) + numbers[0] * (sum - 6));
            });
            foreach (var f in Figures(picture).Where(f => f.Name == "noise"))
                Assert.InRange(f.Value!.Value, 0.97 * numbers[1] - f.Uncertainty!.Value, 1.03 * numbers[1] + f.Uncertainty.Value);
        }
    }

    private static double Scene(double x, double y) => 30000 + 12000 * Math.Sin(x / 90) * Math.Cos(y / 70) + (((int)(x / 200) + (int)(y / 150)) % 2 == 0 ? 4000 : 0);

    private static IReadOnlyList<Figure> Figures(Plane plane)
    {
        using var folder = new TempFolder();
        var file = TestTiff.Write16(folder["noise.tif"], plane);
        return TestRun.Of(new PhotographQuality(), [("photograph", TestRun.Open(file))]).Outcome.Figures;
    }
}
