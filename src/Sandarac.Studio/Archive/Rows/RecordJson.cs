using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Sandarac.Studio.Archive.Rows;

/// <summary>Values of the record as JSON and back, nothing lost: numbers by their shortest exact text, times to the tick, structures as the database holds them. Reading takes nothing that writing would not have written.</summary>
internal static class RecordJson
{
    /// <summary>To a tick. Without a zone, for the camera's times have none; all others are UTC.</summary>
    private const string TimeFormat = "yyyy-MM-dd'T'HH:mm:ss.fffffff";

    public static JsonSerializerOptions Options { get; } = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(namingPolicy: null, allowIntegerValues: false) },
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
    };

    public static JsonWriterOptions Written { get; } = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Time(DateTime time) => time.ToString(TimeFormat, CultureInfo.InvariantCulture);

    /// <exception cref="FormatException">Not such a time.</exception>
    public static DateTime Time(string text) => DateTime.SpecifyKind(DateTime.ParseExact(text, TimeFormat, CultureInfo.InvariantCulture), DateTimeKind.Utc);

    /// <summary>Writes a record.</summary>
    public static void Write(Stream stream, RecordFile record)
    {
        using var writer = new Utf8JsonWriter(stream, Written);
        writer.WriteStartObject();
        writer.WriteString("format", RecordFile.Format);
        writer.WriteNumber("version", RecordFile.Version);
        writer.WriteString("software", record.Software);
        writer.WriteString("times", "UTC, except TakenAt, which is the camera's clock");
        writer.WriteString("painting", record.Rows.PaintingId);
        writer.WriteStartObject("tables");
        WriteTables(writer, record.Rows, record.Rows.Model.Tables);
        writer.WriteEndObject();
        writer.WriteStartArray("objects");
        foreach (var o in record.Objects) Write(writer, o);
        writer.WriteEndArray();
        writer.WriteEndObject();
    }

    /// <summary>Writes those of some tables that have rows, by name.</summary>
    public static void WriteTables(Utf8JsonWriter writer, RecordRows rows, IEnumerable<RecordTable> tables)
    {
        foreach (var table in tables.Where(t => rows.Of(t).Count > 0).OrderBy(t => t.Name, StringComparer.Ordinal))
        {
            writer.WriteStartArray(table.Name);
            foreach (var row in rows.Of(table)) WriteRow(writer, table, row);
            writer.WriteEndArray();
            writer.Flush();
        }
    }

    public static void WriteRow(Utf8JsonWriter writer, RecordTable table, object row)
    {
        writer.WriteStartObject();
        foreach (var column in table.Columns)
        {
            writer.WritePropertyName(column.Name);
            if (column.Get(row) is DateTime time) writer.WriteStringValue(Time(time));
            else JsonSerializer.Serialize(writer, column.Get(row), column.Type, Options);
        }
        writer.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter writer, PackedObject o)
    {
        writer.WriteStartObject();
        writer.WriteString("path", o.Path);
        writer.WriteString("sha256", o.Sha256);
        writer.WriteNumber("bytes", o.Bytes);
        writer.WriteString("mediaType", o.MediaType);
        writer.WriteBoolean("isDerived", o.IsDerived);
        writer.WriteString("storedAt", Time(o.StoredAt));
        writer.WriteEndObject();
    }
}
