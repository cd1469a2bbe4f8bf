using Sandarac.Analysis.Sections.Drawn;
using Sandarac.Imaging;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>The layers on record, drawn as columns to one scale.</summary>
public sealed class Columns(OpenStudio studio)
{
    /// <summary>What stands beside a column has no room for more letters.</summary>
    private const int LongestLabel = 34;

    private static readonly char[] Letters = [.. Enumerable.Range('a', 26).Select(c => (char)c)];

    private static readonly (string Word, LayerKind Kind)[] Named =
    [
        ("underdrawing", LayerKind.Underdrawing), ("ground", LayerKind.Ground), ("priming", LayerKind.Priming), ("imprimatura", LayerKind.Priming), ("varnish", LayerKind.Varnish), ("dirt", LayerKind.Dirt),
        ("retouching", LayerKind.Retouching), ("overpaint", LayerKind.Retouching), ("leaf", LayerKind.Metal), ("glaze", LayerKind.Paint), ("paint", LayerKind.Paint),
    ];

    /// <summary>Samples with at least one layer whose thickness is on record, by the painting's order.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="only">These alone, in this order; null for all.</param>
    /// <exception cref="InputProblem">"unknown-painting"; one of the samples is not the painting's ("unknown-sample").</exception>
    public IReadOnlyList<DrawnSample> Of(Guid paintingId, IReadOnlyList<Guid>? only = null)
    {
        using var db = studio.CreateDb();
        var painting = db.RequirePainting(paintingId);
        var samples = new Samples(studio).Of(paintingId);
        var chosen = only?.Select(id => samples.FirstOrDefault(s => s.Id == id) ?? throw new InputProblem("unknown-sample", id.ToString(), "There is no such sample of this painting.", "Reload the page.")) ?? samples;
        var layers = new SectionLayers(studio).BySample(paintingId);
        var kinds = new Stages(studio).Of(paintingId).ToDictionary(s => s.Id, s => s.Content.Kind);
        return [.. chosen.Select(s => Drawn(painting, s, [.. layers[s.Id]], kinds)).Where(d => d.Layers.Count > 0)];
    }

    /// <summary>The drawing.</summary>
    /// <exception cref="InputProblem">As <see cref="Of"/>; there is nothing to draw ("no-thickness").</exception>
    public string Svg(Guid paintingId, IReadOnlyList<Guid>? only = null) => Of(paintingId, only) is { Count: > 0 } samples ? Stratigraphy.Svg(samples)
        : throw new InputProblem("no-thickness", paintingId.ToString(), "No layer of these samples has a thickness on record.", "Measure the layers on the Sections page, or write their thicknesses down.");

    private DrawnSample Drawn(Painting painting, Sample sample, IReadOnlyList<SectionLayer> layers, Dictionary<Guid, StageKind> kinds)
    {
        // A layer whose sublayers a run measured is drawn as these.
        var whole = layers.Where(l => !layers.Any(part => part.Content is { RunId: not null, RunLayer: null } c && c.RunId == l.Content.RunId && c.Number.TrimEnd(Letters) == l.Content.Number && c.Number != l.Content.Number)).ToList();
        var drawn = whole.Where(l => l.Content.MeanUm > 0).ToList();
        var measured = new SectionDesk(studio).Measured(sample, drawn);
        var place = sample.Content is { X: { } x, Y: { } y } ? Place.Text(x, y, painting.HeightMm) : "place not written down";
        var left = whole.Count - drawn.Count;
        return new DrawnSample($"Sample {sample.Content.Number}", left == 0 ? place : $"without {left} of {whole.Count} layers: no thickness", [.. drawn.Select(l => Layer(l.Content, kinds, measured.GetValueOrDefault(l.Id)?.Layer))]);
    }

    private static DrawnLayer Layer(LayerContent content, Dictionary<Guid, StageKind> kinds, MeasuredLayer? measured) => new(content.Number, KindOf(content, kinds), Short(content.Materials.Length > 0 ? content.Materials : content.Name),
        content.MeanUm!.Value, content.LowUm, content.HighUm, measured?.Coverage ?? 1, measured?.Colour?.Hex);

    private static string Short(string text) => text.Length <= LongestLabel ? text : $"{text[..(LongestLabel - 3)]}...";

    private static LayerKind KindOf(LayerContent content, Dictionary<Guid, StageKind> kinds) => (content.StageId is { } stage ? kinds.GetValueOrDefault(stage, StageKind.Other) : StageKind.Other) switch
    {
        StageKind.Ground => LayerKind.Ground,
        StageKind.Priming => LayerKind.Priming,
        StageKind.Drawing => LayerKind.Underdrawing,
        StageKind.Paint => LayerKind.Paint,
        StageKind.Varnish => LayerKind.Varnish,
        StageKind.Dirt => LayerKind.Dirt,
        StageKind.Intervention => LayerKind.Retouching,
        // A colour is no kind: "light grey layer" stays unsaid until a person says what it is.
        _ => Named.FirstOrDefault(n => content.Name.Contains(n.Word, StringComparison.OrdinalIgnoreCase)).Kind,
    };
}
