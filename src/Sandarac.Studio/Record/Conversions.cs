using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Sandarac.Studio.Record;

/// <summary>UTC times as ticks. A time that is not UTC is a defect of the caller, except camera times, which have no zone and are kept as they are.</summary>
internal sealed class UtcTicks() : ValueConverter<DateTime, long>(
    time => time.Kind == DateTimeKind.Local ? time.ToUniversalTime().Ticks : time.Ticks,
    ticks => new DateTime(ticks, DateTimeKind.Utc));

/// <summary>A value as JSON text, the same in both databases.</summary>
internal sealed class JsonText<T>() : ValueConverter<T, string>(
    value => JsonSerializer.Serialize(value, StudioJson.Options),
    text => JsonSerializer.Deserialize<T>(text, StudioJson.Options)!);

/// <summary>Two values are equal when their JSON is; values are replaced, never changed in place.</summary>
internal sealed class JsonComparer<T>() : ValueComparer<T>(
    (a, b) => JsonSerializer.Serialize(a, StudioJson.Options) == JsonSerializer.Serialize(b, StudioJson.Options),
    value => JsonSerializer.Serialize(value, StudioJson.Options).GetHashCode(StringComparison.Ordinal),
    value => value);

/// <summary>How the studio writes JSON into its tables.</summary>
internal static class StudioJson
{
    public static JsonSerializerOptions Options { get; } = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter() },
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
    };
}
