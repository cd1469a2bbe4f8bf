namespace Sandarac.Materials.Solvents;

/// <summary>The best combinations so far, best first.</summary>
internal sealed class BestBlends(BlendTarget target, IReadOnlyList<Solvent> solvents, int count)
{
    /// <summary>A part with less than this is none: the combination without it is compared by itself.</summary>
    private const double None = 1e-9;

    private readonly List<(double Distance, int Parts, int Hazards, Blend Blend)> _best = [];
    private double _furthest = double.PositiveInfinity;

    /// <summary>Takes a combination when it is among the best; indices of parts that it lacks are -1.</summary>
    public void Keep(double squared, int first, int second, int third, double secondShare, double thirdShare)
    {
        if (squared > _furthest) return;
        var (a, b, c) = (1 - secondShare - thirdShare, second < 0 ? 1 : secondShare, third < 0 ? 1 : thirdShare);
        if (a < None || b < None || c < None) return;
        Insert(Math.Sqrt(squared), [.. new[] { (first, a), (second, secondShare), (third, thirdShare) }.Where(p => p.Item1 >= 0).Select(p => new MixturePart(solvents[p.Item1], p.Item2))]);
    }

    public IReadOnlyList<Blend> ToList() => [.. _best.Select(b => b.Blend)];

    private void Insert(double distance, MixturePart[] parts)
    {
        var hazards = parts.SelectMany(p => p.Solvent.HazardCodes).Distinct().Count();
        var entry = (Math.Round(distance / target.Alike), parts.Length, hazards, distance);
        var at = _best.FindIndex(b => entry.CompareTo((Math.Round(b.Distance / target.Alike), b.Parts, b.Hazards, b.Distance)) < 0);
        if (at < 0) at = _best.Count;
        if (at >= count) return;
        _best.Insert(at, (distance, parts.Length, hazards, new Blend(new([.. parts.OrderByDescending(p => p.Fraction)]), distance, target is HansenTarget { Radius: { } r } ? distance / r : null, hazards)));
        if (_best.Count > count) _best.RemoveAt(count);
        // A distance that rounds like the last one's may still win by parts or hazards.
        if (_best.Count == count) _furthest = Math.Pow(_best[^1].Distance + target.Alike, 2);
    }
}
