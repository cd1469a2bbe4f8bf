namespace Sandarac.Analysis.Teaching;

/// <summary>Marked pixels as samples.</summary>
/// <param name="Features">Feature by feature, a value for each sample.</param>
/// <param name="Class">Each sample's class.</param>
/// <param name="Mark">Each sample's mark.</param>
internal sealed record Samples(float[][] Features, int[] Class, int[] Mark)
{
    public int Count => Class.Length;

    /// <summary>Weights with which each class counts as much as any other, and within a class each of its blocks; they add up to the number of samples.</summary>
    /// <param name="block">The marks' blocks.</param>
    /// <param name="chosen">Samples that count.</param>
    public double[] Weights(MarkBlocks block, IReadOnlyList<int> chosen)
    {
        var sizes = chosen.GroupBy(i => block[Mark[i]]).ToDictionary(g => g.Key, g => g.Count());
        var blocks = chosen.Select(i => (Class[i], block[Mark[i]])).Distinct().GroupBy(p => p.Item1).ToDictionary(g => g.Key, g => g.Count());
        return [.. chosen.Select(i => (double)chosen.Count / blocks.Count / blocks[Class[i]] / sizes[block[Mark[i]]])];
    }

    /// <summary>Writes the features of up to <see cref="Forest.Run"/> samples as a forest takes them.</summary>
    public void Fill(ReadOnlySpan<int> chosen, Span<float> target)
    {
        for (var f = 0; f < Features.Length; f++)
            for (var i = 0; i < chosen.Length; i++) target[f * Forest.Run + i] = Features[f][chosen[i]];
    }
}
