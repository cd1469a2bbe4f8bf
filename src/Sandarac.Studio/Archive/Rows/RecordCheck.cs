using System.Text.Json;
using System.Xml;
using NetTopologySuite.IO.Converters;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive.Rows;

/// <summary>Whether a record is whole in itself: one painting, every key once, nothing that lies outside. Asked before packing, so that no package is written that would not be taken, and before anything is unpacked.</summary>
internal static class RecordCheck
{
    private static readonly JsonSerializerOptions GeoJson = new() { Converters = { new GeoJsonConverterFactory() }, MaxDepth = 16 };

    /// <exception cref="InputProblem">"record-damaged", "refers-outside", "runs-under-way", "geometry", "text-unreadable", "seal-broken".</exception>
    public static void Require(RecordFile record)
    {
        var rows = record.Rows;
        HashSet<Guid> ids = [.. rows.Ids(), .. rows.Of<Proposal>().SelectMany(p => p.Content.Options).SelectMany(o => o.Steps.Select(s => s.Id).Prepend(o.Id))];
        if (rows.Of<Painting>().ToList() is not [{ } painting] || painting.Id != rows.PaintingId) throw RecordReading.Damaged("Paintings", "It is not of exactly one painting.");
        if (rows.Of<Run>().FirstOrDefault(r => r.State is RunState.Queued or RunState.Running) is { } run)
            throw new InputProblem("runs-under-way", run.Id.ToString(), $"A run of {run.ReadingId} has not ended yet.", "Let it end, or cancel it, then pack.");
        var objects = record.Objects.Select(o => o.Sha256).ToHashSet(StringComparer.Ordinal);
        foreach (var table in rows.Model.Tables)
        {
            RequireUnique(table, rows.Of(table));
            foreach (var row in rows.Of(table)) RequireSound(table, row, rows, ids, objects);
        }
        RequireSeals(rows);
        RequireEvidence(rows, ids);
        RequireHistory(rows);
        foreach (var (column, table, owner) in rows.Model.Tables.SelectMany(t => t.References.Select(r => (r.Column, t, r.Table))))
        {
            var keys = rows.Of(owner).Select(r => owner.Id?.Get(r)).ToHashSet();
            foreach (var row in rows.Of(table))
                if (column.Get(row) is { } key && !keys.Contains(key)) throw Outside(table, column, row, key);
        }
    }

    /// <summary>What people signed or approved must still be what they signed or approved.</summary>
    private static void RequireSeals(RecordRows rows)
    {
        var seals = rows.Of<StateSeal>().ToDictionary(s => s.StateId);
        var broken = seals.Values.Where(s => !new FrozenText(s.Text, s.Sha256).IsIntact).Select(s => s.StateId).Concat(rows.Of<Signature>().Where(s => seals.TryGetValue(s.StateId, out var seal) && seal.Sha256 != s.Sha256).Select(s => s.StateId));
        foreach (var state in broken) throw new InputProblem("seal-broken", state.ToString(), "A sealed state does not have the hash that was signed: it was changed afterwards.", "Ask those who signed for the state as they have it.");
        foreach (var approval in rows.Of<ProposalApproval>().Where(a => !new FrozenText(a.Text, a.Sha256).IsIntact))
            throw new InputProblem("seal-broken", approval.ProposalId.ToString(), "An approved proposal does not have the hash of what was approved: it was changed afterwards.", "Ask the custodian for the proposal as it was approved.");
    }

    private static void RequireEvidence(RecordRows rows, HashSet<Guid> ids)
    {
        foreach (var finding in rows.Of<Finding>())
            foreach (var evidence in finding.Content.Evidence)
                if (evidence.Kind != EvidenceKind.Literature && (evidence.Id is not { } id || !ids.Contains(id)))
                    throw new InputProblem("refers-outside", $"Findings {finding.Id}", $"It rests on a {evidence.Kind} that is not among what belongs to the painting.", "A package holds one painting with all that belongs to it. Ask the sender for a new one.");
    }

    /// <summary>Every revision must be readable as what it is a revision of.</summary>
    private static void RequireHistory(RecordRows rows)
    {
        var contents = rows.Written().ToDictionary(w => w.Id, w => w.Content);
        foreach (var change in rows.Of<WrittenChange>())
        {
            try
            {
                if (contents.TryGetValue(change.SubjectId, out var type) && JsonSerializer.Deserialize(change.Content, type, StudioJson.Options) is not null) continue;
                throw new JsonException("It is a revision of nothing.");
            }
            catch (Exception e) when (e is JsonException or NotSupportedException or ArgumentException)
            {
                throw RecordReading.Damaged($"WrittenChanges {change.SubjectId}/{change.Revision}", e.Message, e);
            }
        }
    }

    private static void RequireUnique(RecordTable table, IReadOnlyList<object> rows)
    {
        var keys = new HashSet<string>(StringComparer.Ordinal);
        foreach (var row in rows)
            if (!keys.Add(Key(table, row))) throw RecordReading.Damaged($"{table.Name} {Key(table, row)}", "The row is there twice.");
    }

    private static void RequireSound(RecordTable table, object row, RecordRows rows, HashSet<Guid> ids, HashSet<string> objects)
    {
        foreach (var column in table.Columns)
        {
            var value = column.Get(row);
            if (column.Name == "PaintingId" && value is Guid painting && painting != rows.PaintingId) throw Outside(table, column, row, painting);
            foreach (var id in column.References(row))
                if (!ids.Contains(id)) throw Outside(table, column, row, id);
            if (value is double number && !double.IsFinite(number)) throw RecordReading.Damaged($"{table.Name} {Key(table, row)}, {column.Name}", "It is not a number.");
            if (value is string text) RequireReadable(table, column, row, text);
            if (value is string shape && column.Name == "Geometry") RequireGeometry(table, row, shape);
        }
        foreach (var sha256 in table.Objects.Select(c => c.Get(row)).Select(v => (v as PyramidFacts)?.Sha256 ?? v as string).OfType<string>())
            if (!objects.Contains(sha256)) throw RecordReading.Damaged($"{table.Name} {Key(table, row)}", $"The file {sha256} that it speaks of is not there.");
    }

    /// <summary>Documents and drawings are XML, and PostgreSQL has no room for the sign of number zero.</summary>
    private static void RequireReadable(RecordTable table, RecordColumn column, object row, string text)
    {
        try
        {
            XmlConvert.VerifyXmlChars(text);
        }
        catch (XmlException e)
        {
            throw new InputProblem("text-unreadable", $"{table.Name} {Key(table, row)}", $"{column.Name} holds a sign that is no letter.", "Write it anew in the studio that it comes from.", e);
        }
    }

    private static void RequireGeometry(RecordTable table, object row, string shape)
    {
        try
        {
            if (JsonSerializer.Deserialize<NetTopologySuite.Geometries.Geometry>(shape, GeoJson) is { IsEmpty: false } geometry && geometry.Coordinates.All(c => double.IsFinite(c.X) && double.IsFinite(c.Y))) return;
            throw new JsonException("It is empty, or not of numbers.");
        }
        catch (Exception e) when (e is JsonException or ArgumentException or InvalidOperationException or NotSupportedException or FormatException)
        {
            throw new InputProblem("geometry", $"{table.Name} {Key(table, row)}", $"Its geometry is not one: {e.Message}", "The package is not used. Ask the sender for a new one.", e);
        }
    }

    private static InputProblem Outside(RecordTable table, RecordColumn column, object row, object key) =>
        new("refers-outside", $"{table.Name} {Key(table, row)}", $"{column.Name} refers to {key}, which is not among what belongs to the painting.", "A package holds one painting with all that belongs to it. Ask the sender for a new one.");

    private static string Key(RecordTable table, object row) => string.Join('/', table.Key.Select(k => k.Get(row)));
}
