using Sandarac.Imaging;
using Sandarac.Materials.Dating;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Datings;

/// <summary>A material that was stated, with its years held against the painting's.</summary>
/// <param name="Found">What was stated.</param>
/// <param name="Check">The comparison; null for a material that the table does not have.</param>
/// <param name="Where">Where it is, in words; empty when that was not said.</param>
/// <param name="Placed">What its place says of a contradiction: it lies in a later layer, or under one; null where it says nothing.</param>
public sealed record MaterialDated(MaterialFound Found, DatingCheck? Check, string Where, string? Placed);

/// <summary>Brings together the materials of a painting, their years and their places in its build-up.</summary>
public sealed class DatingDesk(OpenStudio studio)
{
    /// <summary>A painting's materials, in the order in which they were stated.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<MaterialDated> Of(Guid paintingId)
    {
        var painting = Painting(paintingId);
        var found = new MaterialsFound(studio).Of(paintingId);
        if (found.Count == 0) return [];
        var (samples, layers) = (new Samples(studio).Of(paintingId).ToDictionary(s => s.Id, s => s.Content.Number), new SectionLayers(studio).Of(paintingId).ToDictionary(l => l.Id));
        var (zones, spectra) = (new Zones(studio).Of(paintingId).ToDictionary(z => z.Id, z => z.Name), new MeasuredSpectra(studio).Of(paintingId).ToDictionary(s => s.Id, s => s.Content.Name));
        var stages = Stages(paintingId);
        return [.. found.Select(m =>
        {
            var layer = m.Content.LayerId is { } id ? layers.GetValueOrDefault(id) : null;
            var check = Pigment.Find(m.Content.Material) is { } pigment ? DatingCheck.Of(pigment, painting.DateFrom, painting.DateTo) : null;
            string?[] where = [layer is null ? null : $"sample {samples.GetValueOrDefault(layer.Content.SampleId)}, layer {layer.Content.Number}", m.Content.ZoneId is { } z ? zones.GetValueOrDefault(z) : null, m.Content.SpectrumId is { } s ? spectra.GetValueOrDefault(s) : null];
            return new MaterialDated(m, check, string.Join("; ", where.OfType<string>()), check is { Verdict: DatingVerdict.LaterThan or DatingVerdict.Contested } ? Placed(m.Content, layer, stages) : null);
        })];
    }

    /// <summary>Only materials that the table dates, for the timeline.</summary>
    public static IReadOnlyList<DatingCheck> Checks(IEnumerable<MaterialDated> materials) => [.. materials.Select(m => m.Check).OfType<DatingCheck>().DistinctBy(c => c.Pigment.Name)];

    private Painting Painting(Guid id)
    {
        using var db = studio.CreateDb();
        return db.RequirePainting(id);
    }

    private Dictionary<Guid, BuildUp.Dating> Stages(Guid paintingId)
    {
        var known = new BuildUpDesk(studio).Of(paintingId);
        return known.Order.Groups.Zip(known.Datings).SelectMany(p => p.First.Stages.Select(s => (s.Id, p.Second))).ToDictionary(s => s.Id, s => s.Second);
    }

    private static string? Placed(MaterialFoundContent content, SectionLayer? layer, Dictionary<Guid, BuildUp.Dating> stages) => content.IsLater == true ? "It is taken for a later addition, which agrees."
        : layer?.Content.StageId is { } stage && stages.TryGetValue(stage, out var dating) ? dating.Age switch
        {
            Age.Later => $"Its layer is later, which agrees. {dating.Reason}",
            Age.Original => $"Its layer is original by the build-up: this contradicts the painting's years, the build-up or the material. {dating.Reason}",
            _ => null,
        }
        : content.IsLater == false ? "It is taken for original, which contradicts the painting's years or the material." : null;
}
