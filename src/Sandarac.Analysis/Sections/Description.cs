namespace Sandarac.Analysis.Sections;

/// <summary>
/// Whether two neighbouring layers are worth telling apart: the minimum description length (Rissanen, Automatica 14 (1978) 465), in nats. Telling them apart costs the
/// numbers of another layer's look and the course of a boundary; it gains likelihood, counted in independent rows because grains make neighbouring ones alike.
/// </summary>
internal static class Description
{
    private const int FarthestRows = 60, FarthestProfiles = 20;

    /// <summary>Correlations below this are taken for the end of a grain.</summary>
    private const double LeastCorrelation = 0.1;

    /// <summary>No path is written shorter than with this mean step, rows.</summary>
    private const double LeastStep = 0.5;

    /// <summary>Neighbouring rows and neighbouring profiles that say the same: the integral scale of what the models leave, median over the channels.</summary>
    public static (double Rows, double Profiles) Alike(Profiles profiles, LayerChain.Fitted chain, int first, int last)
    {
        var (n, low, high) = (profiles.Channels, chain.Edges[first].Min(), chain.Edges[last].Max());
        var rows = high - low;
        var left = new float[profiles.Count * rows * n];
        var inside = new bool[profiles.Count * rows];
        for (var p = 0; p < profiles.Count; p++)
            for (var k = first; k < last; k++)
                for (var r = chain.Edges[k][p]; r < chain.Edges[k + 1][p]; r++)
                {
                    var (from, at) = (p * profiles.Rows + r, p * rows + r - low);
                    if (!profiles.Known[from] || chain.Models[k].Cost(profiles.Values[from]) >= profiles.Anything) continue;
                    inside[at] = true;
                    for (var c = 0; c < n; c++) left[at * n + c] = (float)(profiles.Values[from][c] - chain.Models[k].Mean[c]);
                }
        return (Scale(left, inside, n, 1, FarthestRows), Scale(left, inside, n, rows, FarthestProfiles));
    }

    /// <summary>Nats for a boundary's course: steps from profile to profile under Laplace's distribution, its own or beside a neighbour's, whichever is shorter.</summary>
    public static double Course(int[] edge, params int[]?[] neighbours) => neighbours.Append(null).Min(n =>
    {
        var steps = 0.0;
        for (var p = 1; p < edge.Length; p++) steps += Math.Abs(edge[p] - edge[p - 1] - (n is null ? 0 : n[p] - n[p - 1]));
        return edge.Length * Math.Log(2 * Math.E * Math.Max(LeastStep, steps / Math.Max(1, edge.Length - 1)));
    });

    /// <summary>1 + 2 x the sum of correlations until they fade.</summary>
    private static double Scale(float[] left, bool[] inside, int channels, int stride, int farthest)
    {
        var scale = new double[channels];
        Array.Fill(scale, 1);
        var variance = new double[channels];
        var running = Enumerable.Repeat(true, channels).ToArray();
        for (var lag = 0; lag < farthest && running.Contains(true); lag++)
        {
            var (sum, count) = (new double[channels], 0);
            for (var i = lag * stride; i < inside.Length; i++)
            {
                if (!inside[i] || !inside[i - lag * stride]) continue;
                count++;
                for (var c = 0; c < channels; c++) sum[c] += left[i * channels + c] * left[(i - lag * stride) * channels + c];
            }
            if (count < 20) break;
            for (var c = 0; c < channels; c++)
            {
                if (lag == 0) variance[c] = sum[c] / count + 1e-9;
                else if (running[c] && sum[c] / count / variance[c] is > LeastCorrelation and var correlation) scale[c] += 2 * correlation;
                else running[c] = false;
            }
        }
        return Numbers.Robust.Median(scale);
    }
}
