using System.Net;

namespace Sandarac.Server.Tests;

/// <summary>Documents over HTTP, and the page that offers them.</summary>
public sealed class DossierTests(RunningServer server)
{
    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    private string Documents => $"/api/paintings/{server.Seed.Painting.Id}/documents";

    [Theory]
    [InlineData("condition.pdf", "application/pdf", "%PDF-")]
    [InlineData("loan.docx", "application/vnd.openxmlformats-officedocument.wordprocessingml.document", "PK")]
    [InlineData("examination.html?language=es&purpose=pr%C3%A9stamo", "text/html", "<!doctype html><html lang=\"es\">")]
    public async Task Documents_are_written_when_they_are_asked_for(string name, string type, string begins)
    {
        using var answer = await server.Client.GetAsync($"{Documents}/{name}", _stop);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(type, answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal("attachment", answer.Content.Headers.ContentDisposition!.DispositionType);
        var bytes = await answer.Content.ReadAsByteArrayAsync(_stop);
        var text = System.Text.Encoding.UTF8.GetString(bytes);
        Assert.StartsWith(begins, text, StringComparison.Ordinal);
        if (!name.Contains("html", StringComparison.Ordinal)) return;
        Assert.Contains("<dd>préstamo</dd>", WebUtility.HtmlDecode(text), StringComparison.Ordinal);
        Assert.Contains("sandbox", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("condition.exe", "document-format")]
    [InlineData("0.pdf", "document-kind")]
    [InlineData("gossip.pdf", "document-kind")]
    [InlineData("condition.pdf?language=xx", "document-language")]
    public async Task What_there_is_not_is_a_problem_in_words(string name, string code)
    {
        using var answer = await server.Client.GetAsync($"{Documents}/{name}", _stop);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, code);
    }

    [Fact]
    public async Task The_page_offers_every_document_in_every_format_and_language()
    {
        var page = await server.Client.GetStringAsync($"/paintings/{server.Seed.Painting.Id}/dossier", _stop);
        foreach (var kind in new[] { "examination", "condition", "proposal", "treatment", "loan" })
            foreach (var format in new[] { "pdf", "docx", "html" }) Assert.Contains($"formaction=\"{Documents}/{kind}.{format}\"", page, StringComparison.Ordinal);
        Assert.Contains("<option value=\"es\">", page, StringComparison.Ordinal);
    }
}
