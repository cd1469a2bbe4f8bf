using System.Runtime.InteropServices;

namespace Sandarac.Analysis.Teaching;

/// <summary>A node of a tree. A leaf leads to itself, so that every pixel may take as many steps as the tree is deep.</summary>
/// <param name="Feature">The feature that is asked.</param>
/// <param name="Cut">Values above it go to the node after <paramref name="Next"/>; NaN in a leaf.</param>
/// <param name="Next">Node for values up to the cut.</param>
[StructLayout(LayoutKind.Sequential)]
internal readonly record struct TreeNode(int Feature, float Cut, int Next);

/// <summary>A tree: its nodes, the root first, and the classes' shares in every node's samples.</summary>
/// <param name="Nodes">The nodes.</param>
/// <param name="Shares">Node by node, a share for each class; only those of leaves are used.</param>
/// <param name="Depth">Steps from the root to the farthest leaf.</param>
internal sealed record Tree(TreeNode[] Nodes, float[] Shares, int Depth);

/// <summary>Trees whose answers are averaged (Breiman, Machine Learning 45 (2001) 5).</summary>
/// <param name="trees">The trees.</param>
/// <param name="classes">Number of classes.</param>
internal sealed class Forest(IReadOnlyList<Tree> trees, int classes)
{
    /// <summary>Pixels judged together: their features and a tree stay in the processor's near memory.</summary>
    public const int Run = 128;

    private const int Abreast = 8;

    public int Classes => classes;

    /// <summary>Nodes of all trees.</summary>
    public int Nodes => trees.Sum(t => t.Nodes.Length);

    /// <summary>Mean of the trees' depths.</summary>
    public double MeanDepth => trees.Average(t => t.Depth);

    /// <summary>The classes' mean shares over all trees.</summary>
    /// <param name="features">Feature by feature, <see cref="Run"/> pixels each.</param>
    /// <param name="shares">Takes them class by class, <see cref="Run"/> pixels each.</param>
    public void Judge(ReadOnlySpan<float> features, Span<double> shares)
    {
        shares[..(classes * Run)].Clear();
        foreach (var tree in trees)
            for (var first = 0; first < Run; first += Abreast) Add(tree, features, first, shares);
        for (var i = 0; i < classes * Run; i++) shares[i] /= trees.Count;
    }

    /// <summary>Eight pixels go down a tree side by side: none waits for another's memory, and no branch depends on what they hold.</summary>
    private void Add(Tree tree, ReadOnlySpan<float> features, int first, Span<double> shares)
    {
        ReadOnlySpan<TreeNode> nodes = tree.Nodes;
        var (a, b, c, d, e, f, g, h) = (0, 0, 0, 0, 0, 0, 0, 0);
        var at = features[first..];
        for (var step = 0; step < tree.Depth; step++)
        {
            a = Step(nodes, at, a, 0);
            b = Step(nodes, at, b, 1);
            c = Step(nodes, at, c, 2);
            d = Step(nodes, at, d, 3);
            e = Step(nodes, at, e, 4);
            f = Step(nodes, at, f, 5);
            g = Step(nodes, at, g, 6);
            h = Step(nodes, at, h, 7);
        }
        ReadOnlySpan<int> leaves = [a, b, c, d, e, f, g, h];
        for (var i = 0; i < Abreast; i++)
            for (var k = 0; k < classes; k++) shares[k * Run + first + i] += tree.Shares[leaves[i] * classes + k];
    }

    private static int Step(ReadOnlySpan<TreeNode> nodes, ReadOnlySpan<float> features, int node, int pixel)
    {
        ref readonly var n = ref nodes[node];
        return n.Next + (features[n.Feature * Run + pixel] > n.Cut ? 1 : 0);
    }
}
