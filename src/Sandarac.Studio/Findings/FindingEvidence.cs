using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Something that a finding may rest on.</summary>
/// <param name="Kind">What kind of thing.</param>
/// <param name="Id">Its key.</param>
/// <param name="Name">What it is called.</param>
public sealed record EvidenceChoice(EvidenceKind Kind, Guid Id, string Name);

/// <summary>What findings of one painting may rest on, and what each thing is called; also what was taken out, for what was written before.</summary>
public sealed class FindingEvidence
{
    private readonly Dictionary<Guid, string> _names;

    /// <summary>Reads what there is.</summary>
    /// <exception cref="Imaging.InputProblem">"unknown-painting".</exception>
    public FindingEvidence(OpenStudio studio, Guid paintingId)
    {
        using var db = studio.CreateDb();
        db.RequirePainting(paintingId);
        var (samples, findings) = (new Samples(studio), new Findings(studio));
        EvidenceChoice Of(Sample s) => new(EvidenceKind.Sample, s.Id, $"sample {s.Content.Number}");
        EvidenceChoice OfFinding(Finding f) => new(EvidenceKind.Finding, f.Id, $"finding {f.Content.Number}");
        Choices =
        [
            .. db.Photographs.AsNoTracking().Where(p => p.PaintingId == paintingId).AsEnumerable().OrderBy(p => p.FileName, StringComparer.Ordinal).Select(p => new EvidenceChoice(EvidenceKind.Photograph, p.Id, $"{p.Light} {p.FileName}".Trim())),
            .. db.ReadingsOf(paintingId).Where(r => r.State is RunState.Done or RunState.NoAnswer).Select(r => new EvidenceChoice(EvidenceKind.Reading, r.Id, $"{TitleOf(r)} of {string.Join(", ", r.Inputs.Select(i => i.FileName).Distinct().Take(3))}, {Documents.Words.Date(r.EndedAt ?? r.QueuedAt)}")),
            .. samples.Of(paintingId).Select(Of), .. findings.Of(paintingId).OrderBy(f => f.Content.Number).Select(OfFinding),
        ];
        _names = Choices.Concat(samples.Removed(paintingId).Select(Of)).Concat(findings.Removed(paintingId).Select(OfFinding)).ToDictionary(c => c.Id, c => c.Name);
    }

    /// <summary>All that is there.</summary>
    public IReadOnlyList<EvidenceChoice> Choices { get; }

    /// <summary>What a piece of evidence is called, with its note: "UVL UVL_01.tif: the patch is dark".</summary>
    public string Words(Evidence evidence) => evidence.Id is not { } id ? evidence.Note
        : string.Join(": ", new[] { Name(id), evidence.Note }.Where(w => w.Length > 0));

    /// <summary>What a thing is called.</summary>
    public string Name(Guid id) => _names.GetValueOrDefault(id, "something that is not there any more");

    private static string TitleOf(Run run) => ReadingCatalogue.All.FirstOrDefault(r => r.Declaration.Id == run.ReadingId)?.Declaration.Title ?? run.ReadingId;
}
