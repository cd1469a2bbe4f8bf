using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>The layers of sections.</summary>
public sealed partial class SectionLayers(OpenStudio studio) : WrittenRecords<SectionLayer, LayerContent>(studio, "layer")
{
    /// <summary>A painting's layers from the bottom up, by sample.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public ILookup<Guid, SectionLayer> BySample(Guid paintingId) => Of(paintingId).OrderBy(l => Order(l.Content.Number)).ToLookup(l => l.Content.SampleId);

    /// <summary>Makes a stage of the build-up of a layer that shows none yet, called as the layer is. Of what kind it is, is not said unless the layer's name says so.</summary>
    /// <exception cref="InputProblem">"unknown-layer"; it has one ("layer-has-stage"); someone changed it meanwhile.</exception>
    public SectionLayer AddStage(Guid layerId, int revision, string userName)
    {
        var layer = Find(layerId);
        if (layer.Content.StageId is not null) throw new InputProblem("layer-has-stage", layer.Content.Number, "This layer shows a stage already.", "Choose another stage for it, or none.");
        if (layer.Revision != revision) throw new InputProblem("layer-changed", layer.Content.Number, "This layer was changed meanwhile.", "Load the page again.");
        var kind = Enum.GetValues<StageKind>().LastOrDefault(k => k != StageKind.Other && layer.Content.Name.Contains($"{k}", StringComparison.OrdinalIgnoreCase), StageKind.Other);
        var stage = new Stages(Studio).Create(layer.PaintingId, new StageContent { Name = layer.Content.Name, Kind = kind }, userName);
        return Change(layerId, revision, layer.Content with { StageId = stage.Id }, userName);
    }

    /// <summary>The place of a layer's number: 2, 2a, 2b, 3 rise.</summary>
    internal static (int, string) Order(string number) => Numbered().Match(number) is { Success: true } m ? (int.Parse(m.Groups[1].ValueSpan, CultureInfo.InvariantCulture), m.Groups[2].Value) : (int.MaxValue, number);

    private protected override SectionLayer Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override void Alongside(StudioDb db, SectionLayer row) => SearchIndex.Put(db, db.Samples.Find(row.Content.SampleId)!);

    private protected override LayerContent Checked(StudioDb db, SectionLayer row, LayerContent content)
    {
        var number = content.Number.Trim().ToLowerInvariant();
        if (!Numbered().IsMatch(number)) throw Wrong("layer-number", "number", $"\"{content.Number[..Math.Min(20, content.Number.Length)]}\" is not a layer's number.", "Count from 1 at the bottom; sublayers are 2a, 2b.");
        if (!db.Samples.Any(s => s.Id == content.SampleId && s.PaintingId == row.PaintingId)) throw Wrong("unknown-sample", content.SampleId.ToString(), "There is no such sample of this painting.", "Reload the page.");
        var others = db.SectionLayers.AsNoTracking().Where(l => l.PaintingId == row.PaintingId && l.DeletedAt == null && l.Id != row.Id).AsEnumerable().Where(l => l.Content.SampleId == content.SampleId);
        if (others.Any(l => l.Content.Number == number)) throw Wrong("layer-number", "number", $"There is a layer {number} already.", "Give this one another number.");
        if (content.StageId is { } stage) Stages.Require(db, row.PaintingId, stage);
        if (content.RunId is { } run && !db.Runs.Any(r => r.Id == run && r.PaintingId == row.PaintingId)) throw Wrong("unknown-run", run.ToString(), "There is no such run on this painting.", "The painting's readings page lists its runs.");
        CheckThickness(content);
        return content with { Number = number, Name = Name("name", content.Name), ThicknessOrigin = content.ThicknessOrigin.Trim(), RunLayer = content.RunId is null ? null : content.RunLayer };
    }

    private static void CheckThickness(LayerContent content)
    {
        double?[] given = [content.LowUm, content.MeanUm, content.HighUm];
        // From a film of a few molecules to a moulding.
        if (given.Any(t => t is not null and not (>= 0 and <= 100_000))) throw Wrong("thickness", "thickness", "A thickness is not a length in um.", "Give numbers from 0 to 100000.");
        double[] rising = [.. given.OfType<double>()];
        if (!rising.SequenceEqual(rising.Order())) throw Wrong("thickness", "thickness", "The thinnest, mean and thickest values do not rise.", "Give the thinnest first.");
        if (rising.Length > 0 && content.RunId is null && string.IsNullOrWhiteSpace(content.ThicknessOrigin))
            throw Wrong("thickness-origin", "thicknessOrigin", "The thickness does not say where it comes from.", "Say how it was measured, or name the run that measured it.");
    }

    [GeneratedRegex(@"\A([1-9][0-9]?)([a-z]?)\z")]
    private static partial Regex Numbered();
}
