using System.Text;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Documents.Building;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Documents.Web;

namespace Sandarac.Studio;

/// <summary>The first document of an examination: one self-contained HTML page, made from the record alone.</summary>
public sealed class FirstDocument(OpenStudio studio)
{
    /// <summary>What a content-security policy names to allow the page's one style sheet: <c>'sha256-...'</c>. Pictures are <c>data:</c> addresses.</summary>
    public static string StylePolicySource => DocumentStyle.PolicySource;

    /// <summary>Makes the page from the record as it stands.</summary>
    /// <exception cref="Imaging.InputProblem">"unknown-painting".</exception>
    public string Html(Guid paintingId)
    {
        using var page = new MemoryStream();
        HtmlRenderer.Write(Of(paintingId), page);
        return Encoding.UTF8.GetString(page.GetBuffer().AsSpan(0, (int)page.Length));
    }

    private Document Of(Guid paintingId)
    {
        var draft = new Draft(studio, DocumentContent.Read(studio, paintingId), DocumentFields.None, Phrases.English);
        return new Document
        {
            Title = draft.Painting.Title, Kind = draft[Phrase.KindFirst], Identity = IdentityFacts.Line(draft), Phrases = draft.Phrases, Made = draft.Content.Now, Frontispiece = draft.Plates.Frontispiece(),
            Opening = IdentityFacts.Blocks(draft, isFormal: false),
            Sections = [.. new[] { PhotographsSection.Pictures(draft), PhotographsSection.Alignment(draft), ReadingsSection.Of(draft), FilesSection.Of(draft) }.OfType<Section>()],
            Closing = draft.Phrases.Of(Phrase.Closing, draft.Phrases.Time(draft.Content.Now), Words.Software(), draft.Painting.Id),
        };
    }
}
