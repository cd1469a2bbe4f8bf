using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive;

/// <summary>How a record from elsewhere meets what is in the studio.</summary>
internal static class Arrival
{
    /// <summary>Whether the studio has the painting exactly as the record has it.</summary>
    /// <exception cref="InputProblem">"painting-there": it has it otherwise.</exception>
    public static bool IsThere(StudioDb db, RecordRows rows)
    {
        if (db.Paintings.Find(rows.PaintingId) is null) return false;
        if (Text(RecordRows.Read(db, rows.PaintingId)).SequenceEqual(Text(rows))) return true;
        throw new InputProblem("painting-there", rows.PaintingId.ToString(), "The painting is in this studio already, and not as it is in the package; two records of it are not merged.", "Unpack it into another studio to compare them.");
    }

    /// <summary>Nothing of the record may have the key of something else here, or point at something else here.</summary>
    /// <exception cref="InputProblem">"id-clash", "refers-outside".</exception>
    public static void RequireNew(StudioDb db, RecordRows rows)
    {
        var (ids, nested) = (rows.Ids(), Nested(rows));
        nested.ExceptWith(ids);
        foreach (var table in rows.Model.Tables.Where(t => t.Id is not null))
        {
            var key = table.Id!.Path[^1].Name;
            if (RecordRows.Ask(db, table, key, rows.Of(table).Select(r => table.Id.Get(r)!)).FirstOrDefault() is { } row)
                throw new InputProblem("id-clash", $"{table.Name} {table.Id.Get(row)}", "The studio has another thing under this key, which belongs to another painting.", "The package is not used: no two things have one key unless one was made from the other by hand.");
            if (RecordRows.Ask(db, table, key, nested.Cast<object>()).FirstOrDefault() is { } other)
                throw new InputProblem("refers-outside", $"{table.Name} {table.Id.Get(other)}", "The record refers to something of another painting in this studio.", "The package is not used. Ask the sender for a new one.");
        }
    }

    /// <summary>The studio's own terms that the record uses and the studio does not have yet.</summary>
    /// <exception cref="InputProblem">"house-term-differs": both have a term of that name and mean something else by it.</exception>
    public static IReadOnlyList<object> NewTerms(StudioDb db, RecordRows rows)
    {
        var known = db.HouseTerms.AsNoTracking().ToDictionary(t => t.Key, StringComparer.Ordinal);
        foreach (var term in rows.Of<HouseTerm>())
            if (known.TryGetValue(term.Key, out var here) && (here.Category, here.Group, here.Name, here.Definition) != (term.Category, term.Group, term.Name, term.Definition))
                throw new InputProblem("house-term-differs", term.Key, $"This studio means something else by the term \"{term.Name}\": \"{here.Definition}\" instead of \"{term.Definition}\".", "Agree on one meaning with the sender, who corrects the findings that use it.");
        return [.. rows.Of<HouseTerm>().Where(t => !known.ContainsKey(t.Key))];
    }

    /// <summary>Keys within structures. They may be a structure's own, so that not all of them are rows.</summary>
    private static HashSet<Guid> Nested(RecordRows rows)
    {
        var keys = new HashSet<Guid>();
        foreach (var table in rows.Model.Tables)
            foreach (var column in table.Columns.Where(c => c.IsNested))
                foreach (var row in rows.Of(table)) Collect(JsonSerializer.SerializeToElement(column.Get(row), column.Type, RecordJson.Options), keys);
        return keys;
    }

    private static void Collect(JsonElement element, HashSet<Guid> keys)
    {
        if (element.ValueKind == JsonValueKind.String && element.TryGetGuid(out var key)) keys.Add(key);
        else if (element.ValueKind == JsonValueKind.Array)
            foreach (var item in element.EnumerateArray()) Collect(item, keys);
        else if (element.ValueKind == JsonValueKind.Object)
            foreach (var property in element.EnumerateObject()) Collect(property.Value, keys);
    }

    /// <summary>Without the terms, which are the studio's and not the painting's.</summary>
    private static byte[] Text(RecordRows rows)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream, RecordJson.Written))
        {
            writer.WriteStartObject();
            RecordJson.WriteTables(writer, rows, rows.Model.Tables.Where(t => t.RowType != typeof(HouseTerm)));
            writer.WriteEndObject();
        }
        return stream.ToArray();
    }
}
