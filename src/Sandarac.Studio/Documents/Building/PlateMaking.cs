using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Makes pictures of photographs and readings, each with a bar in millimetres or with the reason why it has none.</summary>
internal sealed class PlateMaking(Draft draft)
{
    /// <summary>The painting in visible light; null when no photograph shows it.</summary>
    public Plate? Frontispiece()
    {
        var content = draft.Content;
        var photograph = content.Photographs.Where(p => p.Subject == PhotographSubject.Painting && content.LayerOf(p) is not null)
            .OrderBy(p => p.Light == Light.Visible.Code ? 0 : 1).ThenBy(p => content.LayerOf(p)!.OnPlane ? 0 : 1).FirstOrDefault();
        return photograph is null ? null : Of(content.LayerOf(photograph)!, photograph, $"{photograph.FileName}. {Words.Sentence(draft.Phrases.LightOf(photograph))}");
    }

    /// <summary>A photograph with what is to be known of it; without a picture the caption says so.</summary>
    public Plate? Of(Photograph photograph) => draft.Content.LayerOf(photograph) is { } layer ? Of(layer, photograph, Caption(photograph)) : null;

    /// <summary>A reading's raster.</summary>
    public Plate Of(Layer layer) => Of(layer, null, layer.Label);

    /// <summary>A part of a photograph on the plane.</summary>
    /// <param name="layer">The photograph on the plane.</param>
    /// <param name="photograph">The photograph.</param>
    /// <param name="place">Which part, mm.</param>
    /// <param name="when">What stands before the caption.</param>
    public Plate Of(Layer layer, Photograph photograph, Box place, string when)
    {
        var (studio, mm) = (draft.Studio, layer.MmPerPixel!.Value);
        var picture = new RasterPicture(place.Width / mm, place.Height / mm, longest => PlaneDetail.Draw(studio, layer, place, Math.Min(longest, PlaneDetail.Longest), DisplayFormat.Jpeg));
        var rests = draft.Content.WidthOf(layer, photograph) is { } width ? Rests(width.Origin) : "";
        return new Plate(picture, Prose.Of($"{when}. ", SpanLook.Strong) + $"{Words.Sentence(draft.Phrases.LightOf(photograph))} {photograph.FileName}", $"{when}, {draft.Phrases.LightOf(photograph)}", new PictureScale(place.Width, rests));
    }

    private Plate Of(Layer layer, Photograph? photograph, Prose caption)
    {
        var scale = draft.Content.WidthOf(layer, photograph) is { } width ? new PictureScale(width.WidthMm, Rests(width.Origin)) : null;
        var alt = photograph is null ? $"{layer.Label}, {layer.Detail}" : draft.Phrases.Of(Phrase.PhotographAlt, photograph.FileName, draft.Phrases.LightOf(photograph));
        return new Plate(Picture(layer), scale is null ? caption + $" {draft[Phrase.NoScaleBar]}" : caption, alt, scale);
    }

    private RasterPicture Picture(Layer layer)
    {
        var (studio, pyramid) = (draft.Studio, layer.Pyramid);
        var window = layer.IsReading ? new ContrastWindow(pyramid.Low, pyramid.High) : (ContrastWindow?)null;
        return new RasterPicture(pyramid.Width, pyramid.Height, longest => studio.Pyramids.Read(pyramid.Sha256, f => DisplayEncoder.Thumbnail(f, longest, window, DisplayFormat.Jpeg, 88)));
    }

    private Prose Caption(Photograph photograph)
    {
        var phrases = draft.Phrases;
        List<string> parts = [$"{Words.Sentence(phrases.LightOf(photograph))}"];
        if (photograph.Subject != PhotographSubject.Painting) parts.Add(phrases.Of(Phrase.PhotographShows, phrases.SubjectOf(photograph)));
        if (photograph.TakenAt is { } time) parts.Add(phrases.Of(Phrase.PhotographTaken, phrases.Date(time)));
        if (photograph.LightConfidence != Confidence.Certain) parts.Add(phrases.Of(Phrase.LightDoubt, Doubt(photograph.LightConfidence), photograph.LightReason));
        parts.AddRange(photograph.Warnings.Select(w => $"{phrases[Phrase.WarningSign]} {w.Message}"));
        return Prose.Of(photograph.FileName, SpanLook.Strong) + $" {string.Join(' ', parts)}";
    }

    private string Doubt(Confidence confidence) => draft[confidence switch { Confidence.Certain => Phrase.Certain, Confidence.Probable => Phrase.Probable, _ => Phrase.Possible }];

    private string Rests(ScaleOrigin origin) => origin switch
    {
        ScaleOrigin.Measured => "",
        ScaleOrigin.Distance => draft[Phrase.RestsDistance],
        ScaleOrigin.Ruler => draft[Phrase.RestsRuler],
        ScaleOrigin.Metadata => draft[Phrase.RestsMetadata],
        _ => draft[Phrase.RestsAssumed],
    };
}
