using Sandarac.Studio.Documents;

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
        var content = DocumentContent.Read(studio, paintingId);
        var pictures = new DocumentPictures(studio, content);
        var page = new Html();
        page.Add($"<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>{content.Painting.Title}: first examination</title>");
        page.Add($"<style>{new Markup(DocumentStyle.Css)}</style></head><body><main>");
        IdentitySection.Write(page, content, pictures);
        PhotographsSection.Write(page, content, pictures);
        AlignmentSection.Write(page, content);
        ReadingsSection.Write(page, content, pictures);
        FilesSection.Write(page, content);
        page.Add($"</main></body></html>");
        return page.ToString();
    }
}
