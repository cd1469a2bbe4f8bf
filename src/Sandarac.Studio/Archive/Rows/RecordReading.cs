using System.Reflection;
using System.Text.Json;
using Sandarac.Imaging;

namespace Sandarac.Studio.Archive.Rows;

/// <summary>Reads record.json, which anyone may have written. Text stays text; what does not fit the model to the letter is refused, because keeping half of it would be a loss.</summary>
internal sealed class RecordReading(RecordModel model)
{
    /// <summary>As deep as the structures of the record go, and half as deep again.</summary>
    private const int MaxDepth = 32;

    private static readonly JsonDocumentOptions Strict = new() { MaxDepth = MaxDepth, AllowDuplicateProperties = false };

    /// <summary>Reads a record.</summary>
    /// <exception cref="InputProblem">"record-newer", "record-damaged".</exception>
    public RecordFile Read(Stream stream)
    {
        try
        {
            using var document = JsonDocument.Parse(stream, Strict);
            return Read(document.RootElement);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or FormatException or KeyNotFoundException or InvalidDataException or OverflowException)
        {
            throw Damaged(RecordFile.Path, e.Message, e);
        }
    }

    private RecordFile Read(JsonElement root)
    {
        if (root.ValueKind != JsonValueKind.Object || !root.TryGetProperty("format", out var format) || format.ValueKind != JsonValueKind.String || format.GetString() != RecordFile.Format) throw Damaged(RecordFile.Path, "It is not a record of a painting.");
        var software = root.GetProperty("software").GetString() ?? "";
        if (root.GetProperty("version").GetInt32() is var version && version != RecordFile.Version) throw Newer($"version {version} of the record", software);
        var rows = new RecordRows(model, root.GetProperty("painting").GetGuid());
        foreach (var given in root.GetProperty("tables").EnumerateObject())
        {
            var table = model.Tables.FirstOrDefault(t => t.Name == given.Name) ?? throw Newer($"the table {given.Name}", software);
            rows.Put(table, [.. given.Value.EnumerateArray().Select((row, i) => Row(table, row, $"{table.Name}[{i}]", software))]);
        }
        return new RecordFile(rows, [.. root.GetProperty("objects").EnumerateArray().Select(Object)], software);
    }

    /// <summary>A column that is missing was added after the record was written: the row has what a new row has.</summary>
    private static object Row(RecordTable table, JsonElement given, string where, string software)
    {
        var row = Activator.CreateInstance(table.RowType, nonPublic: true)!;
        if (given.EnumerateObject().FirstOrDefault(p => table.Columns.All(c => c.Name != p.Name)) is { Value.ValueKind: not JsonValueKind.Undefined } unknown) throw Newer($"the column {table.Name}.{unknown.Name}", software);
        foreach (var column in table.Columns)
        {
            if (given.TryGetProperty(column.Name, out var value)) Set(row, column, value, $"{where}.{column.Name}");
            else if (table.Key.Contains(column)) throw Damaged($"{where}.{column.Name}", "It is a part of the row's key and is missing.");
            if (!column.MayBeNull && column.Get(row) is null) throw Damaged($"{where}.{column.Name}", "It is missing.");
        }
        return row;
    }

    private static void Set(object row, RecordColumn column, JsonElement value, string where)
    {
        try
        {
            if (column.IsNested) RequireNoGaps(value);
            column.Set(row, column.IsTime && value.ValueKind == JsonValueKind.String ? RecordJson.Time(value.GetString()!) : value.Deserialize(column.Type, RecordJson.Options));
        }
        catch (Exception e) when (e is JsonException or FormatException or NotSupportedException or InvalidOperationException or ArgumentException or TargetInvocationException)
        {
            throw Damaged(where, (e as TargetInvocationException)?.InnerException?.Message ?? e.Message, e);
        }
    }

    /// <summary>Lists hold things; the program never writes nothing into one.</summary>
    private static void RequireNoGaps(JsonElement value)
    {
        if (value.ValueKind == JsonValueKind.Object)
            foreach (var property in value.EnumerateObject()) RequireNoGaps(property.Value);
        if (value.ValueKind != JsonValueKind.Array) return;
        foreach (var item in value.EnumerateArray())
        {
            if (item.ValueKind == JsonValueKind.Null) throw new JsonException("A list holds nothing where a thing should be.");
            RequireNoGaps(item);
        }
    }

    private static PackedObject Object(JsonElement o) => new(
        o.GetProperty("sha256").GetString() is { Length: 64 } sha && sha.All(char.IsAsciiHexDigitLower) ? sha : throw new FormatException("An object's hash is none."),
        o.GetProperty("bytes").GetInt64(), o.GetProperty("mediaType").GetString()!, o.GetProperty("isDerived").GetBoolean(), RecordJson.Time(o.GetProperty("storedAt").GetString()!), o.GetProperty("path").GetString()!);

    private static InputProblem Newer(string what, string software) => new("record-newer", RecordFile.Path, $"The record has {what}, which this program does not know; {(software.Length == 0 ? "another program" : software)} wrote it.",
        "Unpack it with that version of the program or a later one.");

    internal static InputProblem Damaged(string where, string message, Exception? cause = null) => new("record-damaged", where, $"The record cannot be read: {message}", "The package is not used. Ask the sender for a new one.", cause);
}
