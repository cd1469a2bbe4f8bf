using Sandarac.Imaging;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Documents.Building;
using Sandarac.Studio.Documents.Docx;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Pdf;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Documents.Templates;
using Sandarac.Studio.Documents.Web;

namespace Sandarac.Studio;

/// <summary>Documents about a painting, made from the record alone and from what a person fills in.</summary>
public sealed class Dossier(OpenStudio studio)
{
    /// <summary>A document as the record stands.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="kind">What it is for.</param>
    /// <param name="language">ISO 639-1 code.</param>
    /// <param name="fields">What a person filled in; nothing by default.</param>
    /// <param name="template">A studio's own paper; plain by default.</param>
    /// <exception cref="InputProblem">"unknown-painting"; "document-language".</exception>
    public Document Of(Guid paintingId, DocumentKind kind, string language = "en", DocumentFields? fields = null, DocumentTemplate? template = null)
    {
        var (phrases, paper) = (Phrases.In(language), template ?? DocumentTemplate.Plain);
        var draft = new Draft(studio, DocumentContent.Read(studio, paintingId), fields ?? DocumentFields.None, phrases);
        return new Document
        {
            Title = draft.Painting.Title, Kind = draft[DocumentPlan.Title(kind)], Identity = IdentityFacts.Line(draft), Phrases = phrases, Author = draft.Fields.Author, Made = draft.Content.Now,
            Letterhead = paper.Letterhead(), Footer = paper.Footer, Frontispiece = draft.Plates.Frontispiece(), Opening = IdentityFacts.Blocks(draft, isFormal: kind != DocumentKind.First),
            Sections = [.. paper.Sections(kind).Select(s => DocumentPlan.Write(s, draft, kind)).OfType<Section>()],
            Closing = phrases.Of(Phrase.Closing, phrases.Time(draft.Content.Now), Words.Software(), draft.Painting.Id),
        };
    }

    /// <summary>Writes a document.</summary>
    /// <param name="document">The document.</param>
    /// <param name="format">How.</param>
    /// <param name="target">Where to; must be readable and seekable too.</param>
    /// <param name="cancellation">Stops it; what was written so far is no document.</param>
    public static void Write(Document document, Rendering format, Stream target, CancellationToken cancellation = default)
    {
        switch (format)
        {
            case Rendering.Pdf:
                PdfRenderer.Write(document, target, cancellation);
                break;
            case Rendering.Docx:
                DocxRenderer.Write(document, target, cancellation);
                break;
            default:
                HtmlRenderer.Write(document, target, cancellation);
                break;
        }
    }

    /// <summary>Writes a document into a file, under an unfinished name until it is whole.</summary>
    /// <param name="document">The document.</param>
    /// <param name="format">How.</param>
    /// <param name="path">The file.</param>
    /// <param name="force">Whether a file that is there may be replaced.</param>
    /// <param name="cancellation">Stops it; nothing is left behind.</param>
    /// <exception cref="InputProblem">There is a file of that name ("file-exists"); it cannot be written ("document-file").</exception>
    public static void WriteFile(Document document, Rendering format, string path, bool force, CancellationToken cancellation = default)
    {
        var unfinished = path + ".part";
        if (!force && File.Exists(path)) throw new InputProblem("file-exists", path, $"There is a file {Path.GetFileName(path)} already.", "Give another name, or --force to replace it.");
        try
        {
            using (var file = new FileStream(unfinished, FileMode.Create, FileAccess.ReadWrite)) Write(document, format, file, cancellation);
            File.Move(unfinished, path, overwrite: force);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            File.Delete(unfinished);
            throw new InputProblem("document-file", path, $"The document cannot be written: {e.Message}", "Choose a folder you may write to, on a disk with room.", e);
        }
        catch
        {
            File.Delete(unfinished);
            throw;
        }
    }
}
