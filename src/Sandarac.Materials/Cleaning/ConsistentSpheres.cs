namespace Sandarac.Materials.Cleaning;

/// <summary>How a point lies to a region of which only some tests are known.</summary>
public enum Belongs
{
    /// <summary>In some regions that agree with the tests, not in others.</summary>
    Open,

    /// <summary>In every region that agrees with the tests.</summary>
    Inside,

    /// <summary>In no region that agrees with the tests.</summary>
    Outside,
}

/// <summary>
/// All round regions that agree with what acted and what did not: the model of Hansen's solubility sphere (Hansen Solubility Parameters, 2nd ed. 2007: what acts lies within R0 of a centre, what does not lies outside),
/// with neither centre nor radius known. Centres are looked at cell by cell, and each cell's bounds hold for every centre in it: "inside" and "outside" are never said of a point that some agreeing region
/// contradicts; "open" may be said of one that a finer grid would settle. Real regions are not quite round, and time, carrier and thickness act too: an answer is no more than the tests behind it.
/// </summary>
public sealed class ConsistentSpheres
{
    private readonly List<Cell> _cells = [];
    private readonly double[] _weights;
    private readonly double _reach;

    private ConsistentSpheres(double[] weights, double reach) => (_weights, _reach) = (weights, reach);

    /// <summary>A centre that agrees, with the radii that agree there.</summary>
    private readonly record struct Cell(double[] Centre, double Nearest, double Farthest);

    /// <summary>Whether any round region agrees with all tests.</summary>
    public bool Any => _cells.Count > 0;

    /// <summary>Finds the regions.</summary>
    /// <param name="acted">Points of agents that acted; axes as in <paramref name="box"/>.</param>
    /// <param name="didNot">Points of agents that did not.</param>
    /// <param name="box">Where the centre may lie: lowest and highest value of each axis.</param>
    /// <param name="weights">By what each axis is multiplied before distances are taken: 2, 1, 1 for dispersion, polar and hydrogen bonds.</param>
    /// <param name="step">Width of a cell on each axis, in the axes' unit.</param>
    /// <exception cref="ArgumentException">Axes do not match, or the step is not above 0.</exception>
    public static ConsistentSpheres Of(IReadOnlyList<double[]> acted, IReadOnlyList<double[]> didNot, IReadOnlyList<(double Low, double High)> box, double[] weights, double step)
    {
        if (!(step > 0) || box.Count != weights.Length || acted.Concat(didNot).Any(p => p.Length != weights.Length)) throw new ArgumentException("Axes do not match, or the step is not above 0.");
        var found = new ConsistentSpheres(weights, step / 2 * Math.Sqrt(weights.Sum(w => w * w)));
        foreach (var centre in Centres(box, step))
        {
            var (nearest, farthest) = (acted.Select(p => found.Distance(p, centre)).DefaultIfEmpty(0).Max(), didNot.Select(p => found.Distance(p, centre)).DefaultIfEmpty(double.PositiveInfinity).Min());
            if (nearest - found._reach < farthest + found._reach) found._cells.Add(new Cell(centre, nearest, farthest));
        }
        return found;
    }

    /// <summary>How a point lies to the regions that agree. Without any region that agrees, and without anything that acted, it is open.</summary>
    public Belongs Of(double[] point)
    {
        var (inAll, inNone) = (Any, Any);
        foreach (var cell in _cells)
        {
            var distance = Distance(point, cell.Centre);
            inAll &= distance + _reach <= cell.Nearest - _reach;
            inNone &= distance - _reach >= cell.Farthest + _reach;
            if (!inAll && !inNone) return Belongs.Open;
        }
        return inAll ? Belongs.Inside : inNone ? Belongs.Outside : Belongs.Open;
    }

    /// <summary>Lowest and highest value of the centre on each axis, the cells' width included; null when no region agrees.</summary>
    public IReadOnlyList<(double Low, double High)>? CentreRange(double step) => !Any ? null
        : [.. Enumerable.Range(0, _weights.Length).Select(axis => (_cells.Min(c => c.Centre[axis]) - step / 2, _cells.Max(c => c.Centre[axis]) + step / 2))];

    private double Distance(double[] a, double[] b)
    {
        var sum = 0.0;
        for (var i = 0; i < a.Length; i++)
        {
            var d = _weights[i] * (a[i] - b[i]);
            sum += d * d;
        }
        return Math.Sqrt(sum);
    }

    private static IEnumerable<double[]> Centres(IReadOnlyList<(double Low, double High)> box, double step)
    {
        var counts = box.Select(b => Math.Max(1, (int)Math.Ceiling((b.High - b.Low) / step))).ToArray();
        var total = counts.Aggregate(1, (product, count) => checked(product * count));
        for (var i = 0; i < total; i++)
        {
            var (centre, rest) = (new double[box.Count], i);
            for (var axis = 0; axis < box.Count; axis++)
            {
                centre[axis] = box[axis].Low + (rest % counts[axis] + 0.5) * step;
                rest /= counts[axis];
            }
            yield return centre;
        }
    }
}
