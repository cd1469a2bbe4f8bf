using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>Looks for places that two overlapping parts both show, and that a part and the reference show.</summary>
internal sealed class TieSearch(AlignmentTarget? reference, IReadOnlyList<MosaicPart> parts, ParallelOptions parallel)
{
    private const double LeastDistinct = 5;

    /// <summary>Ties between parts count more than with the reference: like is compared with like, and seams show.</summary>
    private const double AmongParts = 4;

    private readonly double _unit = parts.Max(p => p.Unit);

    /// <summary>How the surest part was found on the reference: all parts are in one light, so what tells one tells all.</summary>
    private readonly PairAlignment? _guided = parts.Select(p => p.OnReference).OfType<PairAlignment>().MinBy(f => f.StandardError);

    /// <summary>All ties, in a fixed order.</summary>
    public IReadOnlyList<Tie> Find()
    {
        var ties = new List<Tie>();
        for (var j = 0; j < parts.Count; j++)
        {
            if (reference is not null && _guided is { } found && (parts[j].OnReference is not null || parts[j].Whole is null)) ties.AddRange(OnReference(j, found));
            for (var i = 0; i < j; i++)
                if (parts[i].Area.Shared(parts[j].Area) is { Width: > 0, Height: > 0 }) ties.AddRange(Between(i, j));
        }
        return ties;
    }

    private IEnumerable<Tie> OnReference(int part, PairAlignment found)
    {
        var survey = new PatchSurvey(reference!.Reference, reference.Map, reference.Area, parts[part].Image, parallel);
        var level = new PatchLevel(found.Unit, 128, 6, 250, found.Kind ?? StructureKind.Directions);
        return survey.Look(parts[part].Map, level).Where(m => m.Distinct >= LeastDistinct - 1).Select(m => new Tie(-1, m.Target, part, m.Moving, m.Precision));
    }

    private IEnumerable<Tie> Between(int from, int to)
    {
        var (a, b) = (parts[from], parts[to]);
        var survey = new PatchSurvey(a.Image, a.Map, a.Area, b.Image, parallel);
        foreach (var (unit, reach) in new[] { (4 * _unit, 12), (_unit, 10) })
        {
            // Placed by themselves, neighbours may be some pixels apart: a coarse look says how far, and the fine one begins there.
            var found = survey.Look(b.Map, new PatchLevel(unit, 64, reach, 150, StructureKind.Gradients)).Where(m => m.Distinct >= LeastDistinct).ToList();
            if (unit > _unit)
            {
                if (found.Count >= 4) b = b with { Map = b.Map.Then(new Homography([1, 0, -Numbers.Robust.Median(found.Select(m => m.Shift.X)), 0, 1, -Numbers.Robust.Median(found.Select(m => m.Shift.Y)), 0, 0, 1])) };
                continue;
            }
            foreach (var m in found) yield return new Tie(from, a.Map.ToPixel(m.Target), to, m.Moving, AmongParts * m.Precision);
        }
    }
}
