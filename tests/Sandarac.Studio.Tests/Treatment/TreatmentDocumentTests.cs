using Microsoft.EntityFrameworkCore;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Tests.Treatment;

/// <summary>What documents say of a treatment, against the contents that AIC Commentaries 26 and 27 ask for (read, partly in excerpts).</summary>
public sealed class TreatmentDocumentTests
{
    [Fact]
    public void The_proposal_prints_every_option_its_risks_what_time_and_cost_rest_on_and_the_approval_with_its_hash()
    {
        using var home = new TreatmentHome();
        var proposal = home.Approved();
        var document = Of(home, DocumentKind.Proposal);
        var html = Html(document);
        Assert.All(
        [
            "Option 1: Thin the varnish (approved)", "Option 2: Leave it", "The varnish hides the evening light.", "the glaze may soften", "what is taken off is gone", "20 to 30 h. It rests on: the log of another painting", "1,800 to 2,500 EUR. It rests on: hours at the studio's rate",
            "Ines Vaart, keeper of paintings, Invented Coast Museum: signed letter of 1 March.", "Conditions: No work on the signature.", home.Approvals.Find(proposal.Id)!.Sha256, "The text is the one that was approved.", "band", "cleaning, varnish removal",
            "local rules, the current safety data sheet and a licensed professional decide",
        ], t => Assert.Contains(Html(t), html, StringComparison.Ordinal));
        Assert.All(["course of treatment", "materials", "time estimate", "cost, if there is a contract", "written approval of the owner or authorised custodian"], need => Assert.Equal("yes", Held(document)[need]));
    }

    [Fact]
    public void A_proposal_that_nobody_approved_or_that_was_tampered_with_says_so()
    {
        using var home = new TreatmentHome();
        home.Proposed();
        Assert.Contains("not approved", Html(Of(home, DocumentKind.Proposal)), StringComparison.Ordinal);
        Assert.Equal("missing", Held(Of(home, DocumentKind.Proposal))["written approval of the owner or authorised custodian"]);
        home.Approved();
        using var db = home.Studio.CreateDb();
        db.Database.ExecuteSqlRaw("""UPDATE "ProposalApprovals" SET "Conditions" = ''""");
        Assert.Contains("What was approved does not fit the record any more: Who approved which option", Html(Of(home, DocumentKind.Proposal)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("en", "2 March 2026", "Retouching: what was added", "added, stays")]
    [InlineData("es", "2 de marzo de 2026", "Reintegración: lo añadido", "añadido, permanece")]
    public void The_report_writes_itself_from_the_log_with_retouching_apart(string language, string day, string retouching, string added)
    {
        using var home = new TreatmentHome();
        var steps = home.Begun();
        home.Write(TreatmentHome.Entry(steps[0].Id, 0, 2, home.Zone("left", 0, 0, 100, 100)) with { Materials = [new LogMaterial("isooctane", 20, "mL", "B7", MaterialUse.Used), new LogMaterial("varnish", null, "", "", MaterialUse.Removed)], NewlySeen = "a line of underdrawing" });
        home.Write(TreatmentHome.Entry(steps[0].Id, 1, 3) with { Materials = [new LogMaterial("isooctane", 15, "mL", "B7", MaterialUse.Used)], Departure = "larger swabs" });
        home.Write(TreatmentHome.Entry(steps[1].Id, 2, 1, home.Zone("toned", 0, 0, 10, 10)) with { Materials = [new LogMaterial("resin colour", 3, "g", "L12", MaterialUse.Added)] });
        home.Steps.Create(home.Painting.Id, new TreatmentStepContent { Name = "Facing", Operation = "stabilise/facing", UrgentReason = "A cup was about to fall." }, TreatmentHome.User);
        var document = Of(home, DocumentKind.Treatment, language);
        var html = Html(document);
        Assert.All([day, "Swabs, rolled.", "Marta Oud", "35 mL", "B7", "a line of underdrawing", "larger swabs", "A cup was about to fall.", added, home.Approvals.Of(home.Painting.Id)[0].Sha256], t => Assert.Contains(Html(t), html, StringComparison.Ordinal));
        var treatment = document.Sections.Single(s => s.Sections.Any(p => p.Title == retouching));
        var apart = treatment.Sections.Single(s => s.Title == retouching);
        Assert.Contains(apart.Blocks.OfType<Table>().SelectMany(t => t.Rows).SelectMany(r => r), c => c.Plain.Contains("resin colour", StringComparison.Ordinal));
        Assert.DoesNotContain(treatment.Blocks.OfType<Table>().SelectMany(t => t.Rows).SelectMany(r => r), c => c.Plain.Contains("resin colour", StringComparison.Ordinal) || c.Plain.Contains("Losses", StringComparison.Ordinal));
        Assert.DoesNotContain(apart.Blocks.OfType<Table>().SelectMany(t => t.Rows).SelectMany(r => r), c => c.Plain.Contains("isooctane", StringComparison.Ordinal));
        foreach (var format in new[] { Rendering.Pdf, Rendering.Docx })
        {
            using var stream = new MemoryStream();
            Dossier.Write(document, format, stream, TestContext.Current.CancellationToken);
            Assert.True(stream.Length > 10_000);
        }
    }

    [Fact]
    public void A_renewed_approval_and_a_step_that_departs_are_variations()
    {
        using var home = new TreatmentHome();
        var first = home.Approved();
        var steps = home.Steps.FromApproved(first.Id, TreatmentHome.User);
        var later = home.Proposals.Supersede(first.Id, TreatmentHome.User);
        later = home.Proposals.Change(later.Id, later.Revision, c => c.Without(c.Options[0].Id, steps[1].Content.ProposedStepId!.Value) with { Title = "Varnish alone" }, TreatmentHome.User);
        home.Approvals.Approve(later.Id, later.Revision, later.Content.Options[0].Id, TreatmentHome.Keeper with { Name = "Tom Brug" }, "by mail", "", TreatmentHome.User);
        var html = Html(Of(home, DocumentKind.Treatment));
        Assert.Contains(Html("\u201cTaking off the yellow varnish\u201d was superseded by \u201cVarnish alone\u201d, approved by Tom Brug"), html, StringComparison.Ordinal);
        Assert.Contains("Steps that differ: Losses (left out).", html, StringComparison.Ordinal);
        Assert.Contains("Losses departs from what was approved.", html, StringComparison.Ordinal);
        var proposal = Html(Of(home, DocumentKind.Proposal));
        Assert.Contains("Varnish alone", proposal, StringComparison.Ordinal);
        Assert.DoesNotContain("Taking off the yellow varnish", proposal, StringComparison.Ordinal);
    }

    private static Document Of(TreatmentHome home, DocumentKind kind, string language = "en") => new Dossier(home.Studio).Of(home.Painting.Id, kind, language);

    private static Dictionary<string, string> Held(Document document) => document.Sections[^1].Blocks.OfType<Table>().Single().Rows.ToDictionary(r => r[0].Plain, r => r[2].Plain);

    private static string Html(Document document)
    {
        using var stream = new MemoryStream();
        Dossier.Write(document, Rendering.Html, stream, TestContext.Current.CancellationToken);
        return System.Text.Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <summary>A text as the document holds it.</summary>
    private static string Html(string text) => System.Net.WebUtility.HtmlEncode(text);
}
