using System.Text;
using Sandarac.Imaging;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Documents.Building;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Documents;

public sealed class DossierTests : IDisposable
{
    private readonly TemporaryStudio _home = new();
    private readonly Painting _painting;

    public DossierTests() => _painting = _home.AddPainting();

    public void Dispose() => _home.Dispose();

    [Theory]
    [InlineData("en", "yes")]
    [InlineData("es", "sí")]
    public void A_painting_of_which_nothing_is_known_has_every_document_in_every_format(string language, string yes)
    {
        foreach (var kind in Enum.GetValues<DocumentKind>())
        {
            var document = new Dossier(_home.Studio).Of(_painting.Id, kind, language);
            foreach (var format in Enum.GetValues<Rendering>())
            {
                using var stream = new MemoryStream();
                Dossier.Write(document, format, stream, TestContext.Current.CancellationToken);
                Assert.True(stream.Length > 1000);
            }
            // Title, measurements and the date alone are known; all else is called missing.
            if (kind != DocumentKind.First) Assert.Equal(3, document.Sections[^1].Blocks.OfType<Table>().Single().Rows.Count(r => r[2].Plain == yes));
        }
    }

    [Fact]
    public void A_finding_is_printed_with_its_evidence_and_its_extent()
    {
        var zone = new Zones(_home.Studio).Create(_painting.Id, new ZoneContent("left edge", "lifting", "", """{"type":"Polygon","coordinates":[[[10,10],[30,10],[30,20],[10,20],[10,10]]]}"""));
        new Sandarac.Studio.Findings(_home.Studio).Create(_painting.Id, new FindingContent
        {
            Observation = "The paint stands up in roofs.", Interpretation = "The panel shrank.", Confidence = Certainty.Probable, Zones = [zone.Id], Severity = "severe", SeverityDefinition = "paint can be lost at any touch", Author = "R. Invented", SeenOn = new DateOnly(2026, 3, 4),
            Evidence = [new Evidence(EvidenceKind.Literature, null, "Invented, Panels, 1999, p. 12")],
        }, "tester");
        var html = Html(DocumentKind.Condition);
        Assert.All(["The paint stands up in roofs.", "The panel shrank.", "probable", "severe by this definition: paint can be lost at any touch", "Invented, Panels, 1999, p. 12", "4 March 2026, R. Invented"], t => Assert.Contains(t, html, StringComparison.Ordinal));
        // 20 x 10 mm of 412 x 518 mm; no photograph was matched there, so that nobody knows how sure it is.
        Assert.Contains("left edge (200<span class=\"pm\">&#160;mm2</span>, 0.09371<span class=\"pm\">&#160;%</span>)", html, StringComparison.Ordinal);
        Assert.Contains("src=\"data:image/svg+xml;base64,", html, StringComparison.Ordinal);
        Assert.True(html.IndexOf("The paint stands up", StringComparison.Ordinal) < html.IndexOf("The panel shrank", StringComparison.Ordinal));
        Assert.Contains("0,09371", Html(DocumentKind.Condition, "es"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_candidate_that_nobody_judged_is_no_finding()
    {
        using (var db = _home.Studio.CreateDb())
        {
            db.Zones.Add(new Zone { PaintingId = _painting.Id, Name = "proposed place", Geometry = """{"type":"Point","coordinates":[10,10]}""", IsCandidate = true, CreatedAt = DateTime.UtcNow });
            db.SaveChanges();
        }
        var html = Html(DocumentKind.Examination);
        Assert.DoesNotContain("proposed place", html, StringComparison.Ordinal);
        Assert.Contains("nobody has judged yet are not findings and are not in this document: 1.", html, StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_person_fills_in_is_printed_and_what_not_is_called_missing()
    {
        var fields = DocumentFields.None with { Purpose = "cleaning", Author = "R. Invented", PastTreatment = "Lined in glue.", References = "none" };
        var document = new Dossier(_home.Studio).Of(_painting.Id, DocumentKind.Proposal, fields: fields);
        var held = document.Sections[^1].Blocks.OfType<Table>().Single().Rows.ToDictionary(r => r[0].Plain, r => r[2].Plain);
        Assert.Equal("yes", held["past treatment"]);
        Assert.Equal("yes", held["references"]);
        Assert.Equal("missing", held["course of treatment"]);
        Assert.Equal("missing", held["materials"]);
        Assert.Equal("missing", held["written approval of the owner or authorised custodian"]);
        Assert.Contains("Lined in glue.", Html(document), StringComparison.Ordinal);
    }

    [Fact]
    public void A_template_orders_leaves_out_and_heads_the_paper_but_never_takes_identity_off()
    {
        var template = TemplateTests.Template(_home.Root, """{"name":"Invented Coast Museum","address":["1 Harbour Row"],"order":["files","photographs"],"leftOut":["alignment"],"footer":"in confidence"}""");
        var document = new Dossier(_home.Studio).Of(_painting.Id, DocumentKind.Examination, template: template);
        Assert.Equal(["Files", "Photographs", "Purpose and circumstances"], document.Sections.Take(3).Select(s => s.Title));
        Assert.DoesNotContain("How the photographs were put on the plane", document.Sections.Select(s => s.Title));
        Assert.Equal(("Invented Coast Museum", "in confidence"), (document.Letterhead!.Name, document.Footer));
    }

    [Fact]
    public void A_file_that_is_there_stays_unless_asked_otherwise_and_nothing_unfinished_is_left()
    {
        var path = Path.Combine(_home.Root, "report.html");
        File.WriteAllText(path, "mine");
        var document = new Dossier(_home.Studio).Of(_painting.Id, DocumentKind.Loan);
        Assert.Equal("file-exists", Assert.Throws<InputProblem>(() => Dossier.WriteFile(document, Rendering.Html, path, force: false, TestContext.Current.CancellationToken)).Code);
        Assert.Equal("mine", File.ReadAllText(path));
        Assert.Throws<OperationCanceledException>(() => Dossier.WriteFile(document, Rendering.Html, path, force: true, new CancellationToken(canceled: true)));
        Assert.Equal("mine", File.ReadAllText(path));
        Dossier.WriteFile(document, Rendering.Html, path, force: true, TestContext.Current.CancellationToken);
        Assert.StartsWith("<!doctype html>", File.ReadAllText(path), StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_home.Root, "*.part"));
    }

    private string Html(DocumentKind kind, string language = "en") => Html(new Dossier(_home.Studio).Of(_painting.Id, kind, language));

    private static string Html(Document document)
    {
        using var stream = new MemoryStream();
        Dossier.Write(document, Rendering.Html, stream, TestContext.Current.CancellationToken);
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
