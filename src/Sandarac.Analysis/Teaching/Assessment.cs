namespace Sandarac.Analysis.Teaching;

/// <summary>A bin of the reliability plot.</summary>
/// <param name="Weight">Share of the held-out marks in it.</param>
/// <param name="Said">Mean probability of the likeliest class.</param>
/// <param name="Right">Share in which that class is the right one.</param>
public sealed record ReliabilityBin(double Weight, double Said, double Right);

/// <summary>How well classes are told apart on marks that were held out.</summary>
/// <param name="heldOut">What was said of them.</param>
/// <param name="classes">Number of classes.</param>
/// <param name="trees">Trees of a forest.</param>
internal sealed class Assessment(HeldOut heldOut, int classes, int trees)
{
    /// <summary>With fewer separate examples of a class nothing is said.</summary>
    public const int FewestBlocks = 5;

    /// <summary>Two classes are separable when the 95 % interval of their balanced accuracy lies wholly above this: chance.</summary>
    public const double Chance = 0.5;

    private const int Bins = 10;

    /// <summary>Each class's part that is recognised.</summary>
    public IReadOnlyList<Share> Recognised { get; } =
        [.. Enumerable.Range(0, classes).Select(k => ShareOf(heldOut, k, shares => Array.IndexOf(shares, shares.Max()) == k))];

    /// <summary>Mean of the classes' recognised parts (balanced accuracy).</summary>
    public Share Balanced => Share.MeanOf([.. Recognised]);

    /// <summary>Share of one class's marks that is taken for another: blocks count alike.</summary>
    public double Taken(int of, int for_) => ShareOf(heldOut, of, shares => Array.IndexOf(shares, shares.Max()) == for_).Value;

    /// <summary>Balanced accuracy between two classes, others left out of the question.</summary>
    public Share Between(int a, int b) => Share.MeanOf([ShareOf(heldOut, a, s => s[a] > s[b]), ShareOf(heldOut, b, s => s[b] > s[a])]);

    /// <summary>The classes that a class cannot be told from.</summary>
    public IReadOnlyList<int> NotToldFrom(int k) => [.. Enumerable.Range(0, classes).Where(other => other != k && !(Between(k, other).Lower > Chance))];

    /// <summary>The reliability plot, from marks whose calibration was found without their fold.</summary>
    public IReadOnlyList<ReliabilityBin> Reliability()
    {
        var (weight, said, right) = (new double[Bins], new double[Bins], new double[Bins]);
        foreach (var fold in Enumerable.Range(0, heldOut.Samples.Count).GroupBy(i => heldOut.Fold[i]))
        {
            var calibration = Calibration.Of(heldOut, trees, fold.Key);
            foreach (var i in fold)
            {
                var probabilities = calibration.Of(heldOut.Shares[i]);
                var likeliest = Array.IndexOf(probabilities, probabilities.Max());
                var bin = Math.Min(Bins - 1, (int)(probabilities[likeliest] * Bins));
                weight[bin] += heldOut.Weights[i];
                said[bin] += heldOut.Weights[i] * probabilities[likeliest];
                right[bin] += likeliest == heldOut.Samples.Class[i] ? heldOut.Weights[i] : 0;
            }
        }
        return [.. weight.Select((w, b) => new ReliabilityBin(w / heldOut.Samples.Count, said[b] / w, right[b] / w))];
    }

    /// <summary>Expected calibration error: mean distance of what was said from what was right, over the bins (Naeini, Cooper and Hauskrecht, AAAI 2015, 2901).</summary>
    public static double CalibrationError(IReadOnlyList<ReliabilityBin> bins) => bins.Where(b => b.Weight > 0).Sum(b => b.Weight * Math.Abs(b.Said - b.Right));

    /// <summary>Mean over a class's blocks of the share of their pixels for which something holds.</summary>
    private static Share ShareOf(HeldOut heldOut, int k, Func<double[], bool> holds)
    {
        double[] blocks = [.. Enumerable.Range(0, heldOut.Samples.Count).Where(i => heldOut.Samples.Class[i] == k).GroupBy(i => heldOut.Block[heldOut.Samples.Mark[i]])
            .Select(block => block.Average(i => holds(heldOut.Shares[i]) ? 1.0 : 0))];
        return Share.OfCases(blocks.Average(), blocks.Length);
    }
}
