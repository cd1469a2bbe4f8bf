namespace Sandarac.Cli.Demo;

/// <summary>Chance with a fixed seed: the demonstration is the same on every machine.</summary>
internal static class Chance
{
    /// <summary>Above this mean counts are as good as normal.</summary>
    private const double Many = 200;

    /// <summary>A standard normal deviate (Box and Muller).</summary>
    public static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    /// <summary>A count about a mean: by Knuth's product where counts are few.</summary>
    public static long Poisson(Random random, double mean)
    {
        if (mean > Many) return Math.Max(0, (long)Math.Round(mean + Math.Sqrt(mean) * Normal(random)));
        var (limit, product, count) = (Math.Exp(-mean), random.NextDouble(), 0L);
        while (product > limit) (product, count) = (product * random.NextDouble(), count + 1);
        return count;
    }
}
