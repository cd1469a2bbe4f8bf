using NetTopologySuite.Geometries;

namespace Sandarac.Analysis.Teaching;

/// <summary>
/// Marks joined to blocks that are held out together: what lies close together looks alike, and a test on the neighbour of what was learnt would flatter
/// (Roberts and others, Ecography 40 (2017) 913).
/// </summary>
internal static class MarkBlocks
{
    /// <summary>Each mark's block: marks of one class with a gap of less than a distance are one block, and so on from mark to mark.</summary>
    public static int[] Of(IReadOnlyList<Geometry> areas, Marks marks, double distance)
    {
        int[] block = [.. Enumerable.Range(0, areas.Count)];
        for (var i = 0; i < areas.Count; i++)
            for (var j = 0; j < i; j++)
            {
                if (marks.All[i].Class != marks.All[j].Class || block[i] == block[j] || !areas[i].IsWithinDistance(areas[j], distance)) continue;
                var (from, to) = (block[i], block[j]);
                for (var k = 0; k <= i; k++) block[k] = block[k] == from ? to : block[k];
            }
        return block;
    }

    /// <summary>Each block's fold: the blocks of every class are dealt out in turn, in an order that does not follow their places.</summary>
    public static IReadOnlyDictionary<int, int> Folds(Samples samples, int[] block, int folds)
    {
        var (dice, next, dealt) = (new Random(0), 0, new Dictionary<int, int>());
        foreach (var ofClass in Enumerable.Range(0, samples.Count).GroupBy(i => samples.Class[i]).OrderBy(g => g.Key))
        {
            int[] blocks = [.. ofClass.Select(i => block[samples.Mark[i]]).Distinct().Order()];
            dice.Shuffle(blocks);
            foreach (var b in blocks) dealt[b] = next++ % folds;
        }
        return dealt;
    }
}
