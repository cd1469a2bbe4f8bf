using System.Text;
using Sandarac.Studio.Documents;
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
        Dossier.Write(new Dossier(studio).Of(paintingId, DocumentKind.First), Rendering.Html, page);
        return Encoding.UTF8.GetString(page.GetBuffer().AsSpan(0, (int)page.Length));
    }
}
