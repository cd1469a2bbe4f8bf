using System.Text;
using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Studio.Archive.BagIt;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive;

/// <summary>Packs one painting's whole record as a bag (RFC 8493) that is a research object too (RO-Crate): the originals untouched, readings, the record as JSON, as linked data and as tables, and documents.</summary>
/// <param name="studio">The studio.</param>
/// <param name="documents">The documents that go with a painting; the first examination when not given.</param>
public sealed class Packing(OpenStudio studio, Func<Guid, IReadOnlyList<PackedDocument>>? documents = null)
{
    /// <summary>Packs a painting. Nothing is there under the target's name before all of it is there.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="target">A folder that is not there yet, or a file that ends in .zip.</param>
    /// <param name="progress">0 to 1.</param>
    /// <param name="cancellation">Stops; nothing stays.</param>
    /// <exception cref="InputProblem">"unknown-painting"; the target is there, or cannot be written; a run has not ended; a file of the store is missing or damaged.</exception>
    public Package Pack(Guid paintingId, string target, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        using var db = studio.CreateDb();
        db.RequirePainting(paintingId);
        var rows = RecordRows.Read(db, paintingId);
        var plan = new PackPlan(db, rows);
        var record = new RecordFile(rows, plan.Objects, Words.Software());
        RecordCheck.Require(record);
        using var sink = BagSinks.Create(target);
        try
        {
            var bag = new BagWriter(sink);
            bag.Add(PackReadme.Path, stream => PackReadme.Write(stream, rows.Painting));
            WriteObjects(bag, plan.Objects, progress, cancellation);
            WriteRuns(bag, plan, cancellation);
            WriteRecord(bag, record, plan);
            foreach (var document in documents is null ? First(paintingId) : documents(paintingId)) bag.Add($"documents/{FileNames.Sound(document.Name)}", document.Write);
            bag.Add("ro-crate-metadata.json", stream => Crate.Write(stream, record, plan, bag.Payload, studio.Now));
            cancellation.ThrowIfCancellationRequested();
            bag.Finish(Info(rows.Painting));
            progress?.Report(1);
            return new Package(target, rows.Painting.Title, bag.Payload.Count, bag.Payload.Sum(f => f.Bytes), rows.Model.Tables.Sum(t => rows.Of(t).Count));
        }
        catch (IOException e)
        {
            throw new InputProblem("disk", target, $"The package could not be written: {e.Message}", "See that the disk is there and has room, then pack again.", e);
        }
    }

    private void WriteObjects(BagWriter bag, IReadOnlyList<PackedObject> objects, IProgress<double>? progress, CancellationToken cancellation)
    {
        var (total, done) = (Math.Max(1.0, objects.Sum(o => (double)o.Bytes)), 0.0);
        foreach (var o in objects)
        {
            var written = bag.Add(o.Path, stream =>
            {
                using var source = studio.Objects.OpenRead(o.Sha256);
                Copying.Copy(source, stream, bytes => progress?.Report(0.99 * (done += bytes.Length) / total), cancellation);
            });
            if (written.Sha256 != o.Sha256) throw new InputProblem("object-damaged", o.Sha256, $"{o.Path} is damaged: its content no longer has its hash.", "Restore it from a copy; `sandarac check` lists every damaged file.");
        }
    }

    private static void WriteRuns(BagWriter bag, PackPlan plan, CancellationToken cancellation)
    {
        foreach (var (run, folder) in plan.Runs)
        {
            cancellation.ThrowIfCancellationRequested();
            bag.Add($"{folder}/provenance.json", stream => WriteJson(stream, new
            {
                run.Id, run.Kind, run.ReadingId, run.ReadingVersion, run.Parameters, run.Inputs, run.Key, run.SoftwareVersion, run.UserName, run.State, run.QueuedAt, run.StartedAt, run.EndedAt, run.Warnings, run.Problem,
            }));
            bag.Add($"{folder}/figures.json", stream => WriteJson(stream, new { run.Figures, run.NoAnswer, run.Warnings }));
        }
    }

    private static void WriteRecord(BagWriter bag, RecordFile record, PackPlan plan)
    {
        bag.Add(RecordFile.Path, stream => RecordJson.Write(stream, record));
        bag.Add("record/record.jsonld", stream => LinkedRecord.Write(stream, record.Rows, plan));
        bag.Add("record/context.jsonld", LinkedRecord.WriteContext);
        foreach (var table in record.Rows.Model.Tables.Where(t => record.Rows.Of(t).Count > 0).OrderBy(t => t.Name, StringComparer.Ordinal)) bag.Add($"record/tables/{table.Name}.csv", stream => RecordTables.Write(stream, table, record.Rows.Of(table)));
    }

    private static void WriteJson(Stream stream, object value)
    {
        using var writer = new Utf8JsonWriter(stream, RecordJson.Written);
        JsonSerializer.Serialize(writer, value, RecordJson.Options);
    }

    private IReadOnlyList<PackedDocument> First(Guid paintingId) => [new PackedDocument("first-examination.html", "text/html", stream => stream.Write(Encoding.UTF8.GetBytes(new FirstDocument(studio).Html(paintingId))))];

    private IEnumerable<(string Label, string Value)> Info(Painting painting) =>
    [
        ("Bag-Software-Agent", Words.Software()), ("Bagging-Date", studio.Now.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)), ("External-Description", $"The record of the examination of a painting: {painting.Title}"),
        ("External-Identifier", $"urn:uuid:{Guid.CreateVersion7()}"), ("Internal-Sender-Identifier", painting.Id.ToString()),
    ];
}
