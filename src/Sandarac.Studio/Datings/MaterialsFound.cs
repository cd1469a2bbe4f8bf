using Sandarac.Imaging;
using Sandarac.Materials.Dating;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Datings;

/// <summary>Materials that people state somewhere on a painting, with how sure they are and by what.</summary>
public sealed class MaterialsFound(OpenStudio studio) : WrittenRecords<MaterialFound, MaterialFoundContent>(studio, "material")
{
    /// <exception cref="InputProblem">The painting has no such layer, or it was taken out ("unknown-layer").</exception>
    internal static void RequireLayer(StudioDb db, Guid paintingId, Guid layerId)
    {
        if (!db.SectionLayers.Any(l => l.Id == layerId && l.PaintingId == paintingId && l.DeletedAt == null)) throw Wrong("unknown-layer", layerId.ToString(), "There is no such layer of this painting.", "The sections page lists its layers.");
    }

    private protected override MaterialFound Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override void Alongside(StudioDb db, MaterialFound row) => SearchIndex.Put(db, row);

    private protected override MaterialFoundContent Checked(StudioDb db, MaterialFound row, MaterialFoundContent content)
    {
        if (!Enum.IsDefined(content.Confidence)) throw Wrong("material-confidence", "confidence", "There is no such degree of certainty.", "Choose certain, probable or possible.");
        if (content.LayerId is { } layer) RequireLayer(db, row.PaintingId, layer);
        if (content.ZoneId is { } zone) Relations.RequireZone(db, row.PaintingId, zone);
        if (content.SpectrumId is { } spectrum && !db.Spectra.Any(s => s.Id == spectrum && s.PaintingId == row.PaintingId && s.DeletedAt == null)) throw Wrong("unknown-spectrum", spectrum.ToString(), "There is no such spectrum of this painting.", "The dating page lists its spectra.");
        if (string.IsNullOrWhiteSpace(content.Basis)) throw Wrong("material-basis", "basis", "It does not say by what the material is stated.", "Say how it was found: \"green particles in the section\", \"Raman, by the laboratory\".");
        var name = Name("material", content.Material);
        // A name of the table is written as the table has it.
        return content with { Material = Pigment.Find(name)?.Name ?? name, Basis = content.Basis.Trim() };
    }
}
