using System.Globalization;
using Sandarac.Analysis.Alignment.Mosaics;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>Joins photographs of parts in one light and of one size, as plates and tiles are, and puts each part where the whole has put it.</summary>
internal sealed class MosaicStep(ExamineSession session)
{
    private const string ReadingId = "mosaic";

    /// <summary>Whether a photograph is one of several that a mosaic will place, so that it need not be matched by itself.</summary>
    public static bool IsPart(Photograph photograph, IReadOnlyList<Photograph> all) => Groups(all).Any(g => g.Contains(photograph));

    public void Run(StepRuns runs)
    {
        IReadOnlyList<Photograph> photographs;
        using (var db = session.Studio.CreateDb()) photographs = session.Photographs(db);
        if (MatchStep.Reference(photographs) is not { } reference) return;
        foreach (var parts in Groups(photographs))
        {
            var request = runs.Request(ReadingId, new Dictionary<string, IReadOnlyList<Guid>> { ["reference"] = [reference.Id], ["parts"] = [.. parts.Select(p => p.Id)] });
            foreach (var mosaic in runs.Read([request], 0.87, 0.89).Where(r => r.State == RunState.Done)) runs.Execute(Queue(mosaic, reference, parts), "aligning", 0.89, 0.9);
        }
    }

    private static IEnumerable<IReadOnlyList<Photograph>> Groups(IReadOnlyList<Photograph> photographs) => photographs
        .Where(p => p.Subject == PhotographSubject.Detail && p.Light is not null && p.Alignments.InForce()?.Method is not (AlignmentMethod.ByHand or AlignmentMethod.ByPairs))
        .GroupBy(p => (p.Light, p.LightSide, p.Facts.Width, p.Facts.Height)).Where(g => g.Count() is >= 2 and <= 64).Select(g => (IReadOnlyList<Photograph>)[.. g]);

    private List<Run> Queue(Run mosaic, Photograph reference, IReadOnlyList<Photograph> parts)
    {
        using var db = session.Studio.CreateDb();
        var (painting, aligning) = (db.RequirePainting(session.PaintingId!.Value), new Aligning(session.Studio));
        List<Run> waiting = [];
        foreach (var (part, map) in Placed(mosaic, reference, parts))
        {
            var agreeing = Residuals(mosaic, painting.PlaneMmPerPixel);
            var (verdict, reason) = Judge(mosaic, part, painting.PlaneMmPerPixel, $"Placed jointly with {parts.Count - 1} other parts and {reference.FileName}.");
            var plan = new AlignmentPlan(AlignmentMethod.Jointly, [], 0, verdict, reason, null,
                Joint: new JointPlan(mosaic.Id, map, agreeing)).For(painting, part);
            var run = aligning.Prepare(part, plan, session.Options.UserName);
            if (db.Runs.Any(r => r.PaintingId == painting.Id && r.Key == run.Key && r.State == RunState.Done)) continue;
            db.Runs.Add(run);
            waiting.Add(run);
        }
        db.SaveChanges();
        return waiting;
    }

    /// <summary>The parts that the mosaic's table places, with their maps to the plane.</summary>
    private IEnumerable<(Photograph Part, HomographyMap Map)> Placed(Run mosaic, Photograph reference, IReadOnlyList<Photograph> parts)
    {
        var raster = mosaic.Rasters.First(r => r.Name == "placement");
        using var table = PyramidFile.Open(session.Studio.Objects.PathOf(raster.Pyramid.Sha256));
        var rows = table.ReadWindow(0, 0, 0, table.Width, table.Height)[0];
        var alignment = reference.Alignments.InForce()!;
        var (extent, mm) = (alignment.PlaneExtent!.Value, alignment.PlaneExtent!.Value.Width / alignment.PlaneImage!.Width);
        Homography toPlane = new([mm, 0, extent.Left, 0, mm, extent.Top, 0, 0, 1]);
        for (var i = 0; i < parts.Count; i++)
            if (!float.IsNaN(rows[0, i])) yield return (parts[i], new HomographyMap([.. rows.Row(i).ToArray().Select(v => (double)v)]).Then(toPlane));
    }

    private static (Verdict, string) Judge(Run mosaic, Photograph part, double mmPerPixel, string reason) =>
        mosaic.Figures.FirstOrDefault(f => f.Name == MosaicReading.WholeError && f.Subject == part.FileName) is not { Value: { } pixels } ? (Verdict.Aligned, reason)
            : (Verdict.Uncertain, string.Create(CultureInfo.InvariantCulture, $"{reason} Patches say too little of it: the whole of it agrees best here, to some {pixels * mmPerPixel:0.0} mm."));

    private static Residuals Residuals(Run mosaic, double mmPerPixel)
    {
        double Of(string figure) => mosaic.Figures.First(f => f.Name == figure).Value!.Value;
        return new Residuals(Of("tie-median") * mmPerPixel, Of("tie-p95") * mmPerPixel, "Places that two parts, or a part and the reference, both show, after the joint adjustment: not held out.",
            Places: (int)Of("ties"), Agreeing: (int)Of("ties"));
    }
}
