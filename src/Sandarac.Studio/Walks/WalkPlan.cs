using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Walking;

/// <summary>Where the lamp of Relight stands.</summary>
/// <param name="AzimuthDeg">Degrees clockwise from the painting's top edge.</param>
/// <param name="ElevationDeg">Degrees above the plane, greater than 0.</param>
internal readonly record struct StepLamp(double AzimuthDeg, double ElevationDeg);

/// <summary>A step with what it shows found.</summary>
/// <param name="Step">The step as it is written.</param>
/// <param name="A">What lies on A.</param>
/// <param name="B">What lies on B; null when A is alone.</param>
/// <param name="Over">The light and shade that lies over A; null for none.</param>
/// <param name="Zones">The zones that are shown.</param>
/// <param name="Notes">What is no longer there, in words.</param>
internal sealed record PlannedStep(WalkStep Step, ExportedPicture A, ExportedPicture? B, ExportedPicture? Over, IReadOnlyList<ZoneFacts> Zones, IReadOnlyList<string> Notes)
{
    /// <summary>How it is compared, which needs a B.</summary>
    public ViewCompare Compare => B is null ? ViewCompare.Alone : Step.Compare;
}

/// <summary>What an export shows: pictures, steps and zones, found in the record as it stands.</summary>
/// <param name="Painting">The painting.</param>
/// <param name="Walk">The walk; null for the painting alone.</param>
/// <param name="Pictures">Every picture, in the order of lights.</param>
/// <param name="Steps">The walk's steps.</param>
/// <param name="Zones">Every zone that is shown: with a walk only those that its steps name.</param>
/// <param name="Warnings">What whoever exports must know.</param>
internal sealed record WalkPlan(Painting Painting, WalkContent? Walk, IReadOnlyList<ExportedPicture> Pictures, IReadOnlyList<PlannedStep> Steps, IReadOnlyList<ZoneFacts> Zones, IReadOnlyList<Warning> Warnings)
{
    private const string Surface = "-normals";

    /// <summary>Finds everything in a studio's record.</summary>
    /// <exception cref="InputProblem">"unknown-painting"; as <see cref="Of"/>.</exception>
    public static WalkPlan Read(OpenStudio studio, Guid paintingId, WalkContent? walk)
    {
        using var db = studio.CreateDb();
        return Of(db.RequirePainting(paintingId), walk, new Layers(studio).Of(paintingId), new Zones(studio).Of(paintingId));
    }

    /// <summary>Finds everything.</summary>
    /// <param name="painting">The painting.</param>
    /// <param name="walk">The walk; null for the painting alone.</param>
    /// <param name="layers">The painting's layers.</param>
    /// <param name="zones">The painting's zones.</param>
    /// <exception cref="InputProblem">The walk has no steps ("walk-empty"); nothing is on the plane ("nothing-aligned").</exception>
    public static WalkPlan Of(Painting painting, WalkContent? walk, IReadOnlyList<Layer> layers, IReadOnlyList<ZoneFacts> zones)
    {
        if (walk is { Steps.Count: 0 }) throw new InputProblem("walk-empty", walk.Title, "This walk has no views yet.", "Bring a view onto the Easel and add it to the walk, then export again.");
        var onPlane = layers.Where(l => l.OnPlane).ToList();
        var always = onPlane.Where(l => ExportedPictures.IsAlwaysShown(l, painting)).ToList();
        var first = always.FirstOrDefault() ?? onPlane.FirstOrDefault(l => !l.IsReading)
            ?? throw new InputProblem("nothing-aligned", painting.Title, "No photograph of this painting is on the plane yet, so there is nothing to show.", "Examine its photographs, or set the corners of one on the Easel.");
        var search = new Search(onPlane, zones, first, onPlane.LastOrDefault(IsSurface));
        var found = (walk?.Steps ?? []).Select(search.Find).ToList();
        var wanted = found.SelectMany(f => new[] { f.A, f.B }).OfType<Layer>().Where(l => !IsSurface(l)).Concat(always).Append(first).DistinctBy(l => l.Id).ToHashSet();
        var lit = found.Where(f => f.Lit is not null).Select(f => (f.Lit!, f.Lamp!.Value)).Distinct().ToList();
        var pictures = ExportedPictures.Name([.. onPlane.Where(wanted.Contains)], lit);
        var steps = found.Select(f => f.With(pictures)).ToList();
        return new WalkPlan(painting, walk, pictures, steps, walk is null ? [.. zones.Where(z => !z.IsCandidate)] : [.. steps.SelectMany(s => s.Zones).DistinctBy(z => z.Id)], [.. Notes(steps), .. LeftOut(onPlane, wanted)]);
    }

    private static bool IsSurface(Layer layer) => layer.IsReading && layer.Id.EndsWith(Surface, StringComparison.Ordinal);

    private static IEnumerable<Warning> Notes(IReadOnlyList<PlannedStep> steps) =>
        steps.Index().SelectMany(s => s.Item.Notes.Select(n => new Warning("walk-step", $"View {s.Index + 1}{(s.Item.Step.Title.Length > 0 ? $", \"{s.Item.Step.Title}\"" : "")}: {n}")));

    private static IEnumerable<Warning> LeftOut(IEnumerable<Layer> onPlane, HashSet<Layer> wanted)
    {
        var parts = onPlane.Where(l => !l.IsReading && !wanted.Contains(l)).Select(l => l.Label).ToList();
        if (parts.Count > 0) yield return new Warning("parts-left-out", $"Photographs of parts that no view shows are left out: {string.Join(", ", parts)}.");
    }

    /// <summary>Finds what steps show.</summary>
    private sealed class Search(IReadOnlyList<Layer> layers, IReadOnlyList<ZoneFacts> zones, Layer first, Layer? newestSurface)
    {
        public Found Find(WalkStep step)
        {
            List<string> notes = [];
            var a = layers.FirstOrDefault(l => l.Id == step.LayerA);
            if (a is null) notes.Add($"The picture that it was written for is no longer there; {first.Label} is shown.");
            var b = step.LayerB is null || step.Compare == ViewCompare.Alone ? null : layers.FirstOrDefault(l => l.Id == step.LayerB);
            if (b is null && step.LayerB is not null && step.Compare != ViewCompare.Alone) notes.Add("What it was compared with is no longer there.");
            if (b is not null && IsSurface(b))
            {
                notes.Add("A measured surface is only shown on A.");
                b = null;
            }
            var shown = step.Zones.Select(id => zones.FirstOrDefault(z => z.Id == id && !z.IsCandidate)).OfType<ZoneFacts>().ToList();
            if (shown.Count < step.Zones.Count) notes.Add($"{step.Zones.Count - shown.Count} of its zones {(step.Zones.Count - shown.Count == 1 ? "is" : "are")} no longer there, or only proposed.");
            var lamp = step is { LampAzimuth: { } azimuth, LampElevation: { } elevation } ? new StepLamp(azimuth, elevation) : (StepLamp?)null;
            if (a is not null && IsSurface(a) && lamp is null) lamp = new StepLamp(315, 20);
            var lit = lamp is null ? null : a is not null && IsSurface(a) ? a : newestSurface;
            if (lamp is not null && lit is null) notes.Add("The measured surface that a lamp lit is no longer there.");
            return new Found(step, a ?? first, b, lit, lit is null ? null : lamp, shown, notes);
        }
    }

    private sealed record Found(WalkStep Step, Layer A, Layer? B, Layer? Lit, StepLamp? Lamp, IReadOnlyList<ZoneFacts> Zones, IReadOnlyList<string> Notes)
    {
        public PlannedStep With(IReadOnlyList<ExportedPicture> pictures)
        {
            var lit = Lit is null ? null : pictures.First(p => p.Layer == Lit && p.Lamp == Lamp);
            var alone = lit is not null && IsSurface(A);
            return new PlannedStep(Step, alone ? lit! : Plain(A, pictures), B is null ? null : Plain(B, pictures), alone ? null : lit, Zones, Notes);
        }

        private static ExportedPicture Plain(Layer layer, IReadOnlyList<ExportedPicture> pictures) => pictures.First(p => p.Layer == layer && p.Lamp is null);
    }
}
