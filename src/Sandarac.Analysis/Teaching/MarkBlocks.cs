using NetTopologySuite.Geometries;

namespace Sandarac.Analysis.Teaching;

/// <summary>
/// Marks joined to blocks that are held out together, and which marks must not be learnt from then: what lies close together looks alike, and a test on the neighbour of what was
/// learnt would flatter (Roberts and others, Ecography 40 (2017) 913: blocks with a buffer about them).
/// </summary>
internal sealed class MarkBlocks
{
    private readonly int[] _block;
    private readonly int[][] _near;

    private MarkBlocks(int[] block, int[][] near) => (_block, _near) = (block, near);

    /// <summary>A mark's block: the number of its first mark.</summary>
    public int this[int mark] => _block[mark];

    /// <summary>Blocks of marks: in the order of the marks, one that is nearer than a distance to the first mark of a block of its class joins the nearest such block, and else begins one.</summary>
    /// <param name="areas">The marks as areas.</param>
    /// <param name="marks">The marks.</param>
    /// <param name="distance">The distance, in the areas' unit.</param>
    public static MarkBlocks Of(IReadOnlyList<Geometry> areas, Marks marks, double distance)
    {
        var (block, near) = (new int[areas.Count], new int[areas.Count][]);
        for (var i = 0; i < areas.Count; i++)
        {
            near[i] = [.. Enumerable.Range(0, areas.Count).Where(j => marks.All[i].Class == marks.All[j].Class && areas[i].IsWithinDistance(areas[j], distance))];
            block[i] = near[i].Where(j => j < i && block[j] == j).Select(j => (int?)j).MinBy(j => areas[i].Distance(areas[j!.Value])) ?? i;
        }
        return new MarkBlocks(block, near);
    }

    /// <summary>Marks that must not be learnt from when some are held out: these, and those of their class that are near them.</summary>
    public HashSet<int> Buffer(IEnumerable<int> heldOut) => [.. heldOut.SelectMany(m => _near[m])];

    /// <summary>Each block's fold: the blocks of every class are dealt out in turn, in an order that does not follow their places.</summary>
    public IReadOnlyDictionary<int, int> Folds(Samples samples, int folds)
    {
        var (dice, next, dealt) = (new Random(0), 0, new Dictionary<int, int>());
        foreach (var ofClass in Enumerable.Range(0, samples.Count).GroupBy(i => samples.Class[i]).OrderBy(g => g.Key))
        {
            int[] blocks = [.. ofClass.Select(i => _block[samples.Mark[i]]).Distinct().Order()];
            dice.Shuffle(blocks);
            foreach (var b in blocks) dealt[b] = next++ % folds;
        }
        return dealt;
    }
}
