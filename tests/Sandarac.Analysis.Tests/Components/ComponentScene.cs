using System.Globalization;
using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Components;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Components;

/// <summary>The stored bands, and what scikit-learn, NumPy and SciPy made of them (References/Components/SOURCE.md).</summary>
internal static class ComponentScene
{
    public const int Width = 40, Height = 30;

    private static readonly string[] Witness = Lines("witness.csv");

    /// <summary>The four bands, as shares of full scale.</summary>
    public static Plane[] Bands()
    {
        var rows = Lines("pixels.csv").Select(Numbers).ToArray();
        return [.. Enumerable.Range(0, 4).Select(b => new Plane(Width, Height, [.. rows.Select(r => (float)(r[b] / 65536))]))];
    }

    /// <summary>The four bands as one image of three bands and one of one: a fourth band beside red, green and blue would be taken for alpha.</summary>
    public static Plane[][] Layers() => [Bands()[..3], Bands()[3..]];

    /// <summary>Rows of the witness under a name.</summary>
    public static double[][] Rows(string name) => [.. Witness.Where(l => l.StartsWith(name + ",", StringComparison.Ordinal)).Select(l => Numbers(l[(name.Length + 1)..]))];

    /// <summary>Runs a reading on files of floats, one for each list of bands.</summary>
    public static (Outcome Outcome, Dictionary<string, Plane[]> Rasters) Run(Reading reading, Plane[][] layers, Dictionary<string, string>? parameters = null, Tiling? tiling = null)
    {
        using var folder = new TempFolder();
        return TestRun.Of(reading, [.. layers.Select((bands, i) => ("layers", TestRun.Open(TestTiff.WriteFloat(folder[$"layer{i}.tif"], bands))))], parameters, tiling);
    }

    /// <summary>Statistics of whole planes, without a file.</summary>
    public static BandStatistics Statistics(params Plane[] bands)
    {
        var sums = BandMoments.Of(bands, new Tile(0, 0, bands[0].Width, bands[0].Height, 0, 0));
        Matrix<double> Divided(double[,] s, double by) => Matrix<double>.Build.Dense(bands.Length, bands.Length, (a, b) => s[Math.Min(a, b), Math.Max(a, b)] / by);
        return new BandStatistics(sums.Count, sums.Missing, sums.Mean, Divided(sums.Products, sums.Count - 1), Divided(sums.Differences, 2 * sums.Pairs));
    }

    /// <summary>Values of a figure, in order.</summary>
    public static double[] Values(this Outcome outcome, string figure) => [.. outcome.Figures.Where(f => f.Name == figure).Select(f => f.Value!.Value)];

    /// <summary>Equal to a share of the greatest, apart from the sign of the whole row, which is a convention.</summary>
    public static void AssertRow(double[] expected, double[] actual, double share)
    {
        var sign = Math.Sign(expected.Zip(actual, (e, a) => e * a).Sum());
        for (var i = 0; i < expected.Length; i++) Assert.Equal(expected[i], sign * actual[i], share * expected.Max(Math.Abs));
    }

    private static string[] Lines(string file) => File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "References", "Components", file));

    private static double[] Numbers(string line) => [.. line.Split(',').Select(f => f == "nan" ? double.NaN : double.Parse(f, CultureInfo.InvariantCulture))];
}
