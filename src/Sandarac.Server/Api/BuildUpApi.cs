using Sandarac.Studio;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.BuildUp.Drawing;

namespace Sandarac.Server.Api;

/// <summary>Stages that are one, with when they were made.</summary>
/// <param name="Index">Its number in this answer, from the bottom up.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Stages">The stages.</param>
/// <param name="Age">Original, later or undetermined.</param>
/// <param name="Reason">Why that is said.</param>
internal sealed record StageGroupShape(int Index, string Name, StageKind Kind, IReadOnlyList<Guid> Stages, Age Age, string Reason);

/// <summary>A relation as it counts: stated by a person, or shown by the layers of a section.</summary>
internal sealed record RelationShape(Guid Id, Guid Stage, RelationKind Kind, Guid Other, string Evidence, bool IsStated, bool IsRedundant);

/// <summary>One group lies directly over another.</summary>
internal sealed record OrderLinkShape(int Upper, int Lower, bool IsContradicted, IReadOnlyList<Guid> Relations);

/// <summary>Relations that cannot all be true: the shortest chain, the relation that further chains share, and those.</summary>
internal sealed record ContradictionShape(IReadOnlyList<Guid> Chain, string Words, Guid? Shared, IReadOnlyList<IReadOnlyList<Guid>> Further);

/// <summary>Two groups whose order is open, and where it could be settled.</summary>
internal sealed record OpenPairShape(int First, int Second, IReadOnlyList<string> Places);

/// <summary>A painting's build-up.</summary>
internal sealed record BuildUpShape(IReadOnlyList<StageGroupShape> Groups, IReadOnlyList<RelationShape> Relations, IReadOnlyList<OrderLinkShape> Links, IReadOnlyList<ContradictionShape> Contradictions,
    IReadOnlyList<OpenPairShape> Open, IReadOnlyList<string> Prose);

/// <summary>Stages, relations, and what follows from them.</summary>
internal static class BuildUpApi
{
    public static void MapBuildUp(this RouteGroupBuilder api)
    {
        api.MapWritten("stages", studio => new Stages(studio));
        api.MapWritten("relations", studio => new Relations(studio));
        api.MapGet("/paintings/{id:guid}/build-up", (Guid id, OpenStudio studio) => Shape(new BuildUpDesk(studio).Of(id)))
            .WithSummary("The order in which the painting was made and altered, as far as it is known: order, contradictions, what is open, when each stage was made, in words");
        api.MapGet("/paintings/{id:guid}/build-up.svg", (Guid id, OpenStudio studio) => Results.Text(BuildUpDrawing.Draw(new BuildUpDesk(studio).Of(id).Order), "image/svg+xml; charset=utf-8"))
            .WithSummary("The build-up as a drawing").Produces<string>(StatusCodes.Status200OK, "image/svg+xml");
    }

    private static BuildUpShape Shape(BuildUpKnown known)
    {
        var (order, redundant) = (known.Order, known.Order.Redundant.Select(r => r.Id).ToHashSet());
        return new BuildUpShape([.. order.Groups.Zip(known.Datings, (g, d) => new StageGroupShape(g.Index, g.Name, g.Kind, [.. g.Stages.Select(s => s.Id)], d.Age, d.Reason))],
            [.. known.Relations.Select(r => new RelationShape(r.Relation.Id, r.Relation.Stage, r.Relation.Kind, r.Relation.Other, r.Relation.Evidence, r.Stated is not null, redundant.Contains(r.Relation.Id)))],
            [.. order.Links.Select(l => new OrderLinkShape(l.Upper.Index, l.Lower.Index, l.IsContradicted, Ids(l.Relations)))],
            [.. order.Contradictions.Select(c => new ContradictionShape(Ids(c.Chain), BuildUpProse.Chain(order, c.Chain), c.Shared?.Id, [.. c.Further.Select(Ids)]))],
            [.. known.Open.Select(o => new OpenPairShape(o.First.Index, o.Second.Index, o.Places))], known.Prose);
    }

    private static IReadOnlyList<Guid> Ids(IReadOnlyList<BuildUpRelation> relations) => [.. relations.Select(r => r.Id)];
}
