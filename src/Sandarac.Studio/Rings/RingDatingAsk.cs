using Sandarac.Analysis.Rings.Dating;
using Sandarac.Imaging;
using Sandarac.Materials.Wood;

namespace Sandarac.Studio.Rings;

/// <summary>A dating as it is asked for: choices by their names, series and references by their keys.</summary>
/// <param name="References">References of the studio.</param>
/// <param name="Transform">The transform.</param>
/// <param name="Convention">Degrees of freedom of t.</param>
/// <param name="Mean">How a reference's series are averaged.</param>
/// <param name="MinimumOverlap">Fewest common years; null for the usual number.</param>
/// <param name="Model">Id of the sapwood model; empty for none.</param>
/// <param name="Seasoning">Id of the years of storing; empty for none.</param>
public sealed record RingDatingAsk(IReadOnlyList<Guid> References, RingTransformKind Transform, TConvention Convention, MasterMean Mean, int? MinimumOverlap, string Model, string Seasoning)
{
    /// <summary>Dates a series of the record.</summary>
    /// <exception cref="InputProblem">"unknown-ring-series"; "unknown-reference"; a model or seasoning that is none ("choice"); what <see cref="RingDating.Of"/> refuses.</exception>
    public RingDating Date(OpenStudio studio, Guid seriesId)
    {
        var series = new RingSeriesRecords(studio).Find(seriesId).Content;
        var outer = series.HasWaneyEdge ? OuterWood.WaneyEdge : series.SapwoodRings is null ? OuterWood.HeartwoodOnly : OuterWood.Sapwood;
        var settings = new CrossDatingSettings { Transform = Transform, Convention = Convention, Mean = Mean };
        return RingDating.Of(new RingDatingRequest(RingSeriesRecords.Widths(series), new RingReferences(studio).Read(References), settings with { MinimumOverlap = MinimumOverlap ?? settings.MinimumOverlap }, outer, series.SapwoodRings ?? 0,
            Chosen("model", Model, SapwoodModel.Find), Chosen("seasoning", Seasoning, Materials.Wood.Seasoning.Find)));
    }

    private static T? Chosen<T>(string subject, string id, Func<string, T?> find) where T : class => id.Length == 0 ? null : find(id) ?? throw new InputProblem("choice", subject, $"There is no {id}.", "Choose one of the list.");
}
