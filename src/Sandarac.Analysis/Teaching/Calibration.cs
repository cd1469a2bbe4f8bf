namespace Sandarac.Analysis.Teaching;

/// <summary>
/// Makes probabilities of the trees' shares: raised to one power and scaled to a sum of 1. The power is the one under which held-out marks were likeliest (temperature scaling: Guo, Pleiss, Sun and
/// Weinberger, Proceedings of Machine Learning Research 70 (2017) 1321; for two classes Platt's scaling without its offset). As Platt does (Advances in Large Margin Classifiers, 1999, 61), the right class counts as (n + 1)/(n + 2)
/// and not as 1, with n the number of separate examples, not of pixels: few examples without a mistake do not make a probability of 1.
/// </summary>
/// <param name="Power">Above 1 where the trees were too unsure, below 1 where they were too sure.</param>
/// <param name="Least">Added to every share: the trees cannot tell a share below half of one tree's from none.</param>
internal sealed record Calibration(double Power, double Least)
{
    private const double LeastPower = 0.2, MostPower = 10;

    /// <summary>The calibration that held-out marks ask for.</summary>
    /// <param name="heldOut">The held-out marks.</param>
    /// <param name="trees">Trees of the forest.</param>
    /// <param name="without">A fold to leave out; null for none.</param>
    public static Calibration Of(HeldOut heldOut, int trees, int? without = null)
    {
        int[] used = [.. Enumerable.Range(0, heldOut.Samples.Count).Where(i => heldOut.Fold[i] != without)];
        var examples = used.Select(i => heldOut.Block[heldOut.Samples.Mark[i]]).Distinct().Count();
        var right = (examples + 1.0) / (examples + 2);
        double Loss(double log)
        {
            var calibration = new Calibration(Math.Exp(log), 0.5 / trees);
            return used.Sum(i => heldOut.Weights[i] * Surprise(calibration.Of(heldOut.Shares[i]), heldOut.Samples.Class[i], right));
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

    /// <summary>Cross entropy with the right class's target and the rest shared by the others.</summary>
    private static double Surprise(double[] probabilities, int rightClass, double right)
    {
        var others = probabilities.Sum(p => Math.Log(p)) - Math.Log(probabilities[rightClass]);
        return -right * Math.Log(probabilities[rightClass]) - (1 - right) / (probabilities.Length - 1) * others;
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
