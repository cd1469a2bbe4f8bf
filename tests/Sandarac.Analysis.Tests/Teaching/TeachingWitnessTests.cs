using System.Globalization;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Teaching;

/// <summary>Against scikit-learn and SciPy (References/Teaching/SOURCE.md).</summary>
public class TeachingWitnessTests
{
    [Fact]
    public void Known_forest_says_what_scikit_learn_says()
    {
        var forest = new Forest([.. Rows("forest.csv").GroupBy(r => r[0]).Select(g => TreeOf([.. g]))], 3);
        var judged = Rows("judged.csv");
        for (var from = 0; from < judged.Length; from += Forest.Run)
        {
            var (features, shares) = (new float[5 * Forest.Run], new double[3 * Forest.Run]);
            var count = Math.Min(Forest.Run, judged.Length - from);
            for (var i = 0; i < count; i++)
                for (var f = 0; f < 5; f++) features[f * Forest.Run + i] = (float)judged[from + i][f];
            forest.Judge(features, shares);
            for (var i = 0; i < count; i++)
                for (var k = 0; k < 3; k++) Assert.Equal(judged[from + i][5 + k], shares[k * Forest.Run + i], 1e-6);
        }
    }

    [Fact]
    public void Known_moments_are_those_of_scipys_Gaussian()
    {
        var rows = Rows("moments.csv");
        var moments = LocalMoments.Of(new Plane(24, 18, [.. rows.Select(r => (float)r[0])]), 0, 0, 1.4, 1);
        var ours = new float[3 * 24];
        for (var y = 0; y < 18; y++)
        {
            moments.Fill(0, y, 24, ours, 24);
            for (var x = 0; x < 24; x++)
                for (var m = 0; m < 3; m++) Assert.Equal(rows[y * 24 + x][1 + m], ours[m * 24 + x], 2e-6);
        }
    }

    [Fact]
    public void Known_intervals_are_Wilsons()
    {
        foreach (var r in Rows("wilson.csv"))
        {
            var share = Share.OfCases(r[0] / r[1], (int)r[1]);
            Assert.Equal(r[2], share.Lower, 1e-9);
            Assert.Equal(r[3], share.Upper, 1e-9);
        }
    }

    /// <summary>A cut between floats is the float below it: no float lies between.</summary>
    private static Tree TreeOf(double[][] rows)
    {
        static float Below(double cut) => (float)cut <= cut ? (float)cut : float.BitDecrement((float)cut);
        // The nodes of a pair stand beside each other: in the order of the breadth, not of the depth.
        var (order, place) = (new List<int> { 0 }, new Dictionary<int, int> { [0] = 0 });
        for (var i = 0; i < order.Count; i++)
            foreach (var child in rows[order[i]][3..5].Select(c => (int)c).Where(c => c >= 0))
            {
                place[child] = order.Count;
                order.Add(child);
            }
        int Depth(int node) => rows[node][3] < 0 ? 0 : 1 + Math.Max(Depth((int)rows[node][3]), Depth((int)rows[node][4]));
        return new Tree([.. order.Select((n, i) => rows[n][3] < 0 ? new TreeNode(0, float.NaN, i) : new TreeNode((int)rows[n][1], Below(rows[n][2]), place[(int)rows[n][3]]))],
            [.. order.SelectMany(n => rows[n][5..8].Select(s => (float)s))], Depth(0));
    }

    private static double[][] Rows(string file) => [.. File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "References", "Teaching", file)).Skip(1)
        .Select(line => line.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray())];
}
