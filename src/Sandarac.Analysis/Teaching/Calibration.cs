namespace Sandarac.Analysis.Teaching;

/// <summary>
/// Makes probabilities of the trees' shares: raised to one power and scaled to a sum of 1. The power is the likeliest one given the held-out marks (temperature scaling: Guo, Pleiss, Sun and
/// Weinberger, Proceedings of Machine Learning Research 70 (2017) 1321; for two classes Platt's scaling without its offset) and given that shares are hardly farther from probabilities than a power of two
/// (its logarithm normal about 0, standard deviation ln 2: ours, no source). Every separate example counts once, not every pixel, so that few examples without a mistake make no probability of 1.
/// </summary>
/// <param name="Power">Above 1 where the trees were too unsure, below 1 where they were too sure.</param>
/// <param name="Least">Added to every share: the trees cannot tell a share below half of one tree's from none.</param>
internal sealed record Calibration(double Power, double Least)
{
    private const double LeastPower = 0.2, MostPower = 10;

    /// <summary>Standard deviation of the power's logarithm before any mark is seen.</summary>
    private static readonly double Spread = Math.Log(2);

    /// <summary>The calibration that held-out marks ask for.</summary>
    /// <param name="heldOut">The held-out marks.</param>
    /// <param name="trees">Trees of the forest.</param>
    /// <param name="without">A fold to leave out; null for none.</param>
    public static Calibration Of(HeldOut heldOut, int trees, int? without = null)
    {
        int[] used = [.. Enumerable.Range(0, heldOut.Samples.Count).Where(i => heldOut.Fold[i] != without)];
        var examples = used.Select(i => heldOut.Block[heldOut.Samples.Mark[i]]).Distinct().Count();
        var weight = examples / used.Sum(i => heldOut.Weights[i]);
        double Loss(double log)
        {
            var calibration = new Calibration(Math.Exp(log), 0.5 / trees);
            return log * log / (2 * Spread * Spread) - weight * used.Sum(i => heldOut.Weights[i] * Math.Log(calibration.Of(heldOut.Shares[i])[heldOut.Samples.Class[i]]));
        }

        return new Calibration(Math.Exp(Lowest(Loss, Math.Log(LeastPower), Math.Log(MostPower))), 0.5 / trees);
    }

    /// <summary>Probabilities of the classes.</summary>
    public double[] Of(double[] shares)
    {
        var (raised, sum) = (new double[shares.Length], 0.0);
        for (var k = 0; k < raised.Length; k++) sum += raised[k] = Math.Pow(shares[k] + Least, Power);
        for (var k = 0; k < raised.Length; k++) raised[k] /= sum;
        return raised;
    }

    /// <summary>Golden section (Kiefer, Proceedings of the American Mathematical Society 4 (1953) 502); the loss has one valley.</summary>
    private static double Lowest(Func<double, double> loss, double from, double to)
    {
        var golden = (Math.Sqrt(5) - 1) / 2;
        var (a, b) = (to - golden * (to - from), from + golden * (to - from));
        var (lossA, lossB) = (loss(a), loss(b));
        while (to - from > 1e-3)
        {
            if (lossA < lossB)
            {
                (to, b, lossB) = (b, a, lossA);
                lossA = loss(a = to - golden * (to - from));
            }
            else
            {
                (from, a, lossA) = (a, b, lossB);
                lossB = loss(b = from + golden * (to - from));
            }
        }
        return (from + to) / 2;
    }
}
