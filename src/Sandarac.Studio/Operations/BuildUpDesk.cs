using Sandarac.Studio.BuildUp;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>A relation of the build-up, and where it comes from.</summary>
/// <param name="Relation">The relation, with its evidence in words.</param>
/// <param name="Stated">What a person stated; null when a section shows it.</param>
/// <param name="SampleId">The sample that shows it.</param>
public sealed record RelationKnown(BuildUpRelation Relation, Relation? Stated, Guid? SampleId);

/// <summary>A painting's build-up, as far as it is known.</summary>
/// <param name="Stages">Its stages.</param>
/// <param name="Relations">What sections show and people state.</param>
/// <param name="Order">What follows from it.</param>
/// <param name="Datings">When each group of stages was made, in the order's own order.</param>
/// <param name="Open">Pairs whose order is open, and where it could be settled.</param>
/// <param name="Prose">The build-up in sentences.</param>
public sealed record BuildUpKnown(IReadOnlyList<Stage> Stages, IReadOnlyList<RelationKnown> Relations, BuildUpOrder Order, IReadOnlyList<Dating> Datings, IReadOnlyList<OpenPair> Open, IReadOnlyList<string> Prose);

/// <summary>Brings together what samples, zones and photographs say of a painting's build-up.</summary>
public sealed class BuildUpDesk(OpenStudio studio)
{
    /// <summary>The build-up as it follows from all that is recorded.</summary>
    /// <exception cref="Imaging.InputProblem">"unknown-painting".</exception>
    public BuildUpKnown Of(Guid paintingId)
    {
        var (stages, samples, zones) = (new Stages(studio).Of(paintingId), new Samples(studio).Of(paintingId), new Zones(studio).Of(paintingId));
        var known = stages.Select(s => s.Id).ToHashSet();
        var layers = new SectionLayers(studio).BySample(paintingId);
        var sections = samples.Select(s => (Sample: s, Layers: layers[s.Id].Where(l => l.Content.StageId is { } stage && known.Contains(stage)).ToList())).ToList();
        var words = new EvidenceWords(studio, paintingId, samples, zones);
        IReadOnlyList<RelationKnown> relations = [.. sections.SelectMany(s => Shown(s.Sample, s.Layers)),
            .. new Relations(studio).Of(paintingId).Where(r => known.Contains(r.Content.StageId) && known.Contains(r.Content.OtherId))
                .Select(r => new RelationKnown(new BuildUpRelation(r.Id, r.Content.StageId, r.Content.Kind, r.Content.OtherId, words.Of(r.Content)), r, r.Content.SampleId))];
        var order = BuildUpOrder.Of([.. stages.Select(s => new BuildUpStage(s.Id, s.Content.Name, s.Content.Kind))], [.. relations.Select(r => r.Relation)]);
        var places = StagePlaces.Of(stages, relations.Select(r => r.Stated?.Content).OfType<RelationContent>(), sections, zones);
        return new BuildUpKnown(stages, relations, order, [.. order.Groups.Select(g => Dating.Of(order, g))], Settling.Of(order, places),
            BuildUpProse.Of(order, sections.SelectMany(s => s.Layers.Select(l => Seen(s.Sample, l.Content))), [.. sections.Where(s => s.Layers.Count > 0).Select(s => s.Sample.Content.Number)]));
    }

    /// <summary>Each layer that shows a stage lies over the next one below that shows another.</summary>
    private static IEnumerable<RelationKnown> Shown(Sample sample, IReadOnlyList<SectionLayer> layers) =>
        layers.Zip(layers.Skip(1)).Where(p => p.First.Content.StageId != p.Second.Content.StageId).Select(p => new RelationKnown(
            new BuildUpRelation(p.Second.Id, p.Second.Content.StageId!.Value, RelationKind.Over, p.First.Content.StageId!.Value, $"sample {sample.Content.Number}, layer {p.Second.Content.Number} over layer {p.First.Content.Number}"), null, sample.Id));

    private static LayerSeen Seen(Sample sample, LayerContent layer) => new(layer.StageId!.Value, sample.Content.Number, layer.LowUm ?? layer.MeanUm, layer.HighUm ?? layer.MeanUm);
}
