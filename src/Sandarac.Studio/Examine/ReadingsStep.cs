using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
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
            return usable.Where(p => Takes(main, p)).Select(p => runs.Request(declaration.Id, WithBoards(declaration, new Dictionary<string, IReadOnlyList<Photograph>> { [main.Name] = [p] }, photographs)));
        var chosen = declaration.Inputs.Where(s => s.BoardOf is null).ToDictionary(s => s.Name, s => (IReadOnlyList<Photograph>)[.. Best(s, usable).Take(Math.Max(1, s.Minimum))]);
        return declaration.Inputs.All(s => s.BoardOf is not null || chosen[s.Name].Count >= s.Minimum) ? [runs.Request(declaration.Id, WithBoards(declaration, chosen, photographs))] : [];
    }

    /// <summary>The photographs, and the even boards that belong to them where the reading can use one.</summary>
    private static Dictionary<string, IReadOnlyList<Guid>> WithBoards(Declaration declaration, Dictionary<string, IReadOnlyList<Photograph>> chosen, IReadOnlyList<Photograph> photographs)
    {
        var inputs = chosen.ToDictionary(c => c.Key, c => (IReadOnlyList<Guid>)[.. c.Value.Select(p => p.Id)]);
        foreach (var slot in declaration.Inputs.Where(s => s.BoardOf is not null))
            if (chosen[slot.BoardOf!] is [var photograph, ..] && BoardOf(photograph, photographs) is { } board) inputs[slot.Name] = [board.Id];
        return inputs;
    }

    /// <summary>The even board that was taken under the same lamps with the same camera.</summary>
    private static Photograph? BoardOf(Photograph photograph, IReadOnlyList<Photograph> photographs) => photograph.Subject is PhotographSubject.FlatField or PhotographSubject.DarkFrame ? null
        : photographs.FirstOrDefault(f => f.Subject == PhotographSubject.FlatField
            && (f.Light, f.LightSide, f.Facts.Width, f.Facts.Height) == (photograph.Light, photograph.LightSide, photograph.Facts.Width, photograph.Facts.Height));

    /// <summary>Best first: surely aligned, then in the order in which the slot names the lights, then the finer one, then by name.</summary>
    private static IEnumerable<Photograph> Best(InputSlot slot, IReadOnlyList<Photograph> usable) => usable.Where(p => p.Subject == PhotographSubject.Painting && Takes(slot, p))
        .OrderBy(p => p.Alignments.InForce()?.Verdict ?? Verdict.NotAligned)
        .ThenBy(p => slot.Lights.TakeWhile(l => l.Code != p.Light).Count())
        .ThenBy(p => p.Alignments.InForce()?.MmPerPixel ?? double.MaxValue).ThenBy(p => p.FileName, StringComparer.Ordinal);

    private static bool Takes(InputSlot slot, Photograph photograph) => slot.Lights.Count == 0 || slot.Lights.Any(l => l.Code == photograph.Light);
}
