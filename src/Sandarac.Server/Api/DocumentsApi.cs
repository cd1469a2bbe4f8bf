using Sandarac.Imaging;
using Sandarac.Server.Security;
using Sandarac.Studio;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Documents.Building;

namespace Sandarac.Server.Api;

/// <summary>What a person fills in for one document.</summary>
internal sealed record FieldsAsk(string Purpose = "", string Author = "", string Owner = "", string Maker = "", string Marks = "", string Circumstances = "", string Accessories = "")
{
    public DocumentFields Fields => new() { Purpose = Purpose.Trim(), Author = Author.Trim(), Owner = Owner.Trim(), Maker = Maker.Trim(), Marks = Marks.Trim(), Circumstances = Circumstances.Trim(), Accessories = Accessories.Trim() };
}

/// <summary>Documents about a painting, made when they are asked for.</summary>
internal static class DocumentsApi
{
    private static readonly Dictionary<Rendering, string> Types = new()
    {
        [Rendering.Pdf] = "application/pdf", [Rendering.Docx] = "application/vnd.openxmlformats-officedocument.wordprocessingml.document", [Rendering.Html] = "text/html; charset=utf-8",
    };

    public static void MapDocuments(this RouteGroupBuilder api) => api.MapGet("/paintings/{id:guid}/documents/{kind}.{format}", Write)
        .WithSummary("A document: kind is first, examination, condition, proposal, treatment or loan; format is pdf, docx or html; language is en or es").Produces<Stream>(StatusCodes.Status200OK, Types[Rendering.Pdf], Types[Rendering.Docx], "text/html");

    /// <summary>The whole document is made before the answer begins: a problem is an answer of its own, never half a file. A temporary file holds it, which is gone when the answer has been sent.</summary>
    private static IResult Write(Guid id, string kind, string format, OpenStudio studio, HttpContext context, [AsParameters] FieldsAsk ask, string language = "en", CancellationToken cancellation = default)
    {
        var (what, how) = (Word<DocumentKind>("kind", kind), Word<Rendering>("format", format));
        var document = new Dossier(studio).Of(id, what, language, ask.Fields);
        var file = new FileStream(Path.Combine(Path.GetTempPath(), Path.GetRandomFileName()), FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1 << 16, FileOptions.DeleteOnClose);
        try
        {
            Dossier.Write(document, how, file, cancellation);
            file.Position = 0;
            if (how == Rendering.Html) context.UsePolicy(SecurityHeaders.DocumentPolicy);
            return Results.Stream(file, Types[how], $"{kind}-{id}.{format}");
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    private static T Word<T>(string subject, string text) where T : struct, Enum => Enum.TryParse<T>(text, ignoreCase: true, out var value) && !char.IsAsciiDigit(text[0]) ? value
        : throw new InputProblem($"document-{subject}", text[..Math.Min(40, text.Length)], $"There is no such {subject} of document.", $"Choose one of: {string.Join(", ", Enum.GetNames<T>().Select(n => n.ToLowerInvariant()))}.");
}
