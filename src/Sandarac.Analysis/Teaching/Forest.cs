using System.Runtime.CompilerServices;
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
    public const int Run = 64;

    private const int Abreast = 8;

    /// <summary>Steps before it is asked whether all have arrived, and between one question and the next.</summary>
    private const int StepsUnasked = 8, StepsBetween = 2;

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

    /// <summary>
    /// Eight pixels go down a tree side by side: none waits for another's memory, and no branch depends on what a single one holds. The processor's gather
    /// instructions were tried and are no faster. Nodes and features are those that the forest was grown with, so that their bounds need no check at each step.
    /// </summary>
    private void Add(Tree tree, ReadOnlySpan<float> features, int first, Span<double> shares)
    {
        ref var nodes = ref MemoryMarshal.GetArrayDataReference(tree.Nodes);
        ref var at = ref Unsafe.Add(ref MemoryMarshal.GetReference(features), first);
        var (a, b, c, d, e, f, g, h) = (0, 0, 0, 0, 0, 0, 0, 0);
        var sum = -1;
        for (var (step, until) = (0, Math.Min(StepsUnasked, tree.Depth)); step < tree.Depth; until = Math.Min(until + StepsBetween, tree.Depth))
        {
            for (; step < until; step++)
            {
                a = Step(ref nodes, ref at, a, 0);
                b = Step(ref nodes, ref at, b, 1);
                c = Step(ref nodes, ref at, c, 2);
                d = Step(ref nodes, ref at, d, 3);
                e = Step(ref nodes, ref at, e, 4);
                f = Step(ref nodes, ref at, f, 5);
                g = Step(ref nodes, ref at, g, 6);
                h = Step(ref nodes, ref at, h, 7);
            }
            // A step down leads to a later node: an equal sum means that all have arrived.
            var now = a + b + c + d + e + f + g + h;
            if (now == sum) break;
            sum = now;
        }
        ReadOnlySpan<int> leaves = [a, b, c, d, e, f, g, h];
        for (var i = 0; i < Abreast; i++)
            for (var k = 0; k < classes; k++) shares[k * Run + first + i] += tree.Shares[leaves[i] * classes + k];
    }

    private static int Step(ref TreeNode nodes, ref float features, int node, int pixel)
    {
        ref var n = ref Unsafe.Add(ref nodes, node);
        return n.Next + (Unsafe.Add(ref features, n.Feature * Run + pixel) > n.Cut ? 1 : 0);
    }
}
