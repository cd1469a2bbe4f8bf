using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>Runs every reading that says it belongs to an examination and whose inputs are there.</summary>
internal sealed class ReadingsStep(ExamineSession session)
{
    public void Run(StepRuns runs)
    {
        IReadOnlyList<Photograph> photographs;
        using (var db = session.Studio.CreateDb()) photographs = session.Photographs(db);
        var requests = ReadingCatalogue.All.Select(r => r.Declaration).Where(d => d.RunsOnExamine && d.Id != FaceFinding.ReadingId).SelectMany(d => Requests(runs, d, photographs)).ToList();
        runs.Read(requests, 0.9, 0.98);
    }

    /// <summary>A reading of one photograph by itself runs on each it can take; one that joins lights runs once, on the best of each.</summary>
    private static IEnumerable<RunRequest> Requests(StepRuns runs, Declaration declaration, IReadOnlyList<Photograph> photographs)
    {
        var usable = photographs.Where(p => !declaration.OnPlane || p.Alignments.InForce() is { PlaneImage: not null }).ToList();
        if (!declaration.OnPlane && declaration.Inputs.Count(s => s.Minimum > 0) == 1 && declaration.Inputs.First(s => s.Minimum > 0) is { Minimum: 1 } main)
            return usable.Where(p => InputChoice.Takes(main, p)).Select(p => runs.Request(declaration.Id, InputChoice.WithBoards(declaration, new Dictionary<string, IReadOnlyList<Photograph>> { [main.Name] = [p] }, photographs)));
        var chosen = declaration.Inputs.Where(s => s.BoardOf is null).ToDictionary(s => s.Name, s => (IReadOnlyList<Photograph>)[.. InputChoice.Best(s, usable).Take(Math.Max(1, s.Minimum))]);
        return declaration.Inputs.All(s => s.BoardOf is not null || chosen[s.Name].Count >= s.Minimum) ? [runs.Request(declaration.Id, InputChoice.WithBoards(declaration, chosen, photographs))] : [];
    }
}
