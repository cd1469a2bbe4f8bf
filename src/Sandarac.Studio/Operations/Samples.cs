using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Photographs of a section that belong to no sample yet, by the name that their files give it.</summary>
/// <param name="Name">"S1"; empty when the files give none.</param>
/// <param name="Photographs">They, in the order of their names.</param>
public sealed record LooseMicrographs(string Name, IReadOnlyList<Photograph> Photographs);

/// <summary>Paint samples.</summary>
public sealed class Samples(OpenStudio studio) : WrittenRecords<Sample, SampleContent>(studio, "sample")
{
    /// <summary>A sample may come from an edge that is turned over: this far outside the face, mm.</summary>
    private const double EdgeMm = 100;

    /// <summary>Micrographs without a sample.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<LooseMicrographs> Loose(Guid paintingId)
    {
        var taken = Of(paintingId).SelectMany(s => s.Content.Micrographs).ToHashSet();
        using var db = Studio.CreateDb();
        return [.. db.PhotographsOf(paintingId).Where(p => p.Subject == PhotographSubject.Sample && !taken.Contains(p.Id)).GroupBy(p => p.Sample ?? "")
            .OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => new LooseMicrographs(g.Key, [.. g]))];
    }

    /// <summary>Gives loose micrographs of one name to the sample whose number it is, making that sample if there is none.</summary>
    /// <exception cref="InputProblem">"unknown-painting"; there are no such micrographs ("no-micrographs"); someone changed the sample meanwhile.</exception>
    public Sample Attach(Guid paintingId, string name, string userName)
    {
        var loose = Loose(paintingId).FirstOrDefault(l => l.Name == name)?.Photographs.Select(p => p.Id)
            ?? throw new InputProblem("no-micrographs", name, $"No micrograph without a sample is called \"{name}\".", "Load the page again: it may have been done.");
        return Of(paintingId).FirstOrDefault(s => s.Content.Number == name) is { } there
            ? Change(there.Id, there.Revision, there.Content with { Micrographs = [.. there.Content.Micrographs, .. loose] }, userName)
            : Create(paintingId, new SampleContent { Number = name.Length > 0 ? name : "without number", Micrographs = [.. loose] }, userName);
    }

    private protected override Sample Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override void Alongside(StudioDb db, Sample row) => SearchIndex.Put(db, row);

    private protected override SampleContent Checked(StudioDb db, Sample row, SampleContent content)
    {
        var number = Name("number", content.Number);
        if (!Enum.IsDefined(content.Site)) throw Wrong("sample-site", "site", "There is no such kind of place.", "Choose one of the list.");
        var others = db.Samples.AsNoTracking().Where(s => s.PaintingId == row.PaintingId && s.DeletedAt == null && s.Id != row.Id).ToList();
        if (others.Any(s => s.Content.Number == number)) throw Wrong("sample-number", "number", $"There is a sample {number} already.", "Give this one another number.");
        OnTheFace.Require(db.RequirePainting(row.PaintingId), content.X, content.Y, "sample-place", EdgeMm);
        CheckMicrographs(db, row, content, others);
        return content with { Number = number, Micrographs = [.. content.Micrographs.Distinct()] };
    }

    private static void CheckMicrographs(StudioDb db, Sample row, SampleContent content, IReadOnlyList<Sample> others)
    {
        foreach (var id in content.Micrographs)
        {
            var photograph = db.RequirePhotograph(row.PaintingId, id);
            if (photograph.Subject != PhotographSubject.Sample) throw Wrong("not-a-micrograph", photograph.FileName, $"{photograph.FileName} does not show a sample.", "State its light as XSEC in photographs.csv and examine the folder again.");
            if (others.FirstOrDefault(s => s.Content.Micrographs.Contains(id)) is { } other)
                throw Wrong("micrograph-taken", photograph.FileName, $"{photograph.FileName} belongs to sample {other.Content.Number}.", "Take it from that sample first.");
        }
    }
}
