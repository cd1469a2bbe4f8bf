using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Sections;
using Sandarac.Analysis.Sections.Particles;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>The micrographs of a sample as the readings of sections take them.</summary>
/// <param name="Inputs">Photographs by input slot; empty when there is none in visible light.</param>
/// <param name="Scale">The scale that the visible one's file gives; null when it gives none that can be a microscope's.</param>
/// <param name="LeftOut">Micrographs that are not used and why, in sentences.</param>
/// <param name="Problem">Why nothing can be measured; null when it can.</param>
public sealed record SectionSources(IReadOnlyDictionary<string, IReadOnlyList<Guid>> Inputs, PixelScale? Scale, IReadOnlyList<string> LeftOut, string? Problem);

/// <summary>A measured layer and its grains.</summary>
/// <param name="Layer">The layer.</param>
/// <param name="Grains">Its grains; null when nobody measured them.</param>
public sealed record LayerFigures(MeasuredLayer Layer, MeasuredGrains? Grains);

/// <summary>Measures the section of a sample and takes what was measured over into the record.</summary>
public sealed class SectionDesk(OpenStudio studio)
{
    /// <summary>The readings of sections.</summary>
    public const string Layers = "layers", Particles = "particles";

    /// <summary>What decides where a run's layers lie and how large its pixels are: both readings have these parameters.</summary>
    private static readonly string[] Shared = [.. new LayersReading().Declaration.Parameters.Select(p => p.Name).Intersect(new ParticlesReading().Declaration.Parameters.Select(p => p.Name))];

    /// <summary>Which micrographs go where: by the light under the microscope, electrons by BSE or SEM in the name; the readings align them to the visible one.</summary>
    public SectionSources Sources(Sample sample)
    {
        using var db = studio.CreateDb();
        var all = db.Photographs.AsNoTracking().Where(p => sample.Content.Micrographs.Contains(p.Id)).AsEnumerable().OrderBy(p => p.FileName, StringComparer.Ordinal).ToList();
        if ((all.FirstOrDefault(p => p.SectionLight == Light.Visible.Code) ?? (all is [var only] && only.SectionLight is null ? only : null)) is not { } visible)
            return new SectionSources(new Dictionary<string, IReadOnlyList<Guid>>(), null, [], "No micrograph of it is known to be in visible light: name one XSEC_..._VIS, or state its section-light as VIS in photographs.csv, and examine the folder again.");
        var (inputs, leftOut) = (new Dictionary<string, IReadOnlyList<Guid>> { ["visible"] = [visible.Id] }, new List<string>());
        foreach (var other in all.Where(p => p.Id != visible.Id))
            if (LeftOut(other, inputs) is { } why) leftOut.Add($"{other.FileName} is not used: {why}.");
            else inputs[SlotOf(other)!] = [other.Id];
        return new SectionSources(inputs, MicrographTags.Of(visible.Facts.Scale), leftOut, null);
    }

    /// <summary>Photographs that may show a stage micrometer: all of the painting's that are not the sample's own, those under the microscope first, by name.</summary>
    public IReadOnlyList<Photograph> StageMicrometers(Sample sample)
    {
        using var db = studio.CreateDb();
        return [.. db.Photographs.AsNoTracking().Where(p => p.PaintingId == sample.PaintingId && !sample.Content.Micrographs.Contains(p.Id)).AsEnumerable()
            .OrderBy(p => p.Subject == PhotographSubject.Sample ? 0 : 1).ThenBy(p => p.FileName, StringComparer.Ordinal)];
    }

    /// <summary>Runs of a reading on this sample that ended with a result, newest first.</summary>
    public IReadOnlyList<Run> Runs(Sample sample, string reading)
    {
        using var db = studio.CreateDb();
        return [.. db.Runs.AsNoTracking().Include(r => r.Rasters).Where(r => r.PaintingId == sample.PaintingId && r.ReadingId == reading && r.State == RunState.Done).OrderByDescending(r => r.QueuedAt).AsEnumerable()
            .Where(r => r.Inputs.Any(i => i.Slot == "visible" && sample.Content.Micrographs.Contains(i.PhotographId)))];
    }

    /// <summary>What a run proposed in its micrograph, in the order in which it did.</summary>
    /// <exception cref="InputProblem">"unknown-run".</exception>
    public IReadOnlyList<RunProposal> Proposals(Guid runId)
    {
        using var db = studio.CreateDb();
        db.RequireRun(runId);
        return [.. db.RunProposals.AsNoTracking().Where(p => p.RunId == runId).OrderBy(p => p.Number)];
    }

    /// <summary>The parameters with which `particles` finds the layers that a run of `layers` found.</summary>
    public static IReadOnlyDictionary<string, string> GrainParameters(Run layers) => layers.Parameters.Where(p => Shared.Contains(p.Key)).ToDictionary();

    /// <summary>Layers of a sample as the runs measured them that they name, by the layer's key.</summary>
    public IReadOnlyDictionary<Guid, LayerFigures> Measured(Sample sample, IReadOnlyList<SectionLayer> layers)
    {
        if (!layers.Any(l => l.Content.RunLayer is not null)) return new Dictionary<Guid, LayerFigures>();
        var (runs, grains) = (Runs(sample, Layers), Runs(sample, Particles));
        return (from layer in layers
                let run = runs.FirstOrDefault(r => r.Id == layer.Content.RunId)
                let measured = run is null ? null : MeasuredLayer.Of(run).FirstOrDefault(m => m.Number == layer.Content.RunLayer)
                where measured is not null
                select (layer.Id, new LayerFigures(measured, grains.FirstOrDefault(g => AreOfOne(run, g)) is { } particles ? MeasuredGrains.Of(particles, measured.Number) : null))).ToDictionary();
    }

    /// <summary>Whether `particles` measured the layers that `layers` found: the same micrographs, clicks and scale.</summary>
    public static bool AreOfOne(Run layers, Run particles) =>
        Shared.All(p => layers.Parameters.GetValueOrDefault(p) == particles.Parameters.GetValueOrDefault(p)) && particles.Parameters.GetValueOrDefault("areas") is "" or null
        && layers.Inputs.Select(i => (i.Slot, i.Sha256)).ToHashSet().SetEquals(particles.Inputs.Select(i => (i.Slot, i.Sha256)));

    private static string? SlotOf(Photograph photograph) => photograph.SectionLight == Light.Visible.Code ? "visible"
        : photograph.SectionLight == Light.Luminescence.Code ? "luminescence"
        : photograph.FileName.ToUpperInvariant().Split('_', '-', '.', ' ', '/').Any(word => word is "BSE" or "SEM") ? "electrons" : null;

    private static string? LeftOut(Photograph other, Dictionary<string, IReadOnlyList<Guid>> inputs) => SlotOf(other) switch
    {
        null => "its light under the microscope is not known",
        var slot when inputs.ContainsKey(slot) => "another in the same light, first by name, is",
        _ => null,
    };
}
