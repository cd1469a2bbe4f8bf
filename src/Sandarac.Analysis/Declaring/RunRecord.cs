using System.Reflection;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace Sandarac.Analysis.Declaring;

/// <summary>Where a result comes from: enough to repeat it and to tell whether it was made already.</summary>
public sealed record RunRecord
{
    private static readonly JsonSerializerOptions Canonical = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    /// <summary>Id of the reading.</summary>
    public required string Reading { get; init; }

    /// <summary>Version of the reading.</summary>
    public required int Version { get; init; }

    /// <summary>Every parameter with its resolved value and unit.</summary>
    public required IReadOnlyList<ArgumentText> Parameters { get; init; }

    /// <summary>The images, slot by slot in the declaration's order.</summary>
    public required IReadOnlyList<RunInput> Inputs { get; init; }

    /// <summary>Version of the software that made it.</summary>
    public required string SoftwareVersion { get; init; }

    /// <summary>
    /// SHA-256, lower-case hexadecimal, of what decides the numbers: reading, version, parameters, and each input's slot, hash, light and scale, and its lamp where that counts. File names
    /// and the software's version are left out: a reading's version rises when its numbers change, and a renamed file is the same file.
    /// </summary>
    public required string Key { get; init; }

    /// <summary>The record of a run that is about to start.</summary>
    public static RunRecord Of(Declaration declaration, Arguments arguments, IReadOnlyDictionary<string, IReadOnlyList<InputImage>> inputs)
    {
        RunInput[] used = [.. declaration.Inputs.SelectMany(slot => (inputs.GetValueOrDefault(slot.Name) ?? [])
            .Select(i => new RunInput(slot.Name, i.Name, i.Sha256, i.Light?.Code, i.Scale?.MmPerPixel, i.Scale?.Origin.ToString().ToLowerInvariant(),
                slot.ByLamp ? i.Lamp?.Azimuth : null, slot.ByLamp ? i.Lamp?.Elevation : null)))];
        return new RunRecord
        {
            Reading = declaration.Id,
            Version = declaration.Version,
            Parameters = arguments.Texts,
            Inputs = used,
            SoftwareVersion = Software,
            Key = KeyOf(declaration, arguments, used),
        };
    }

    /// <summary>Version of this software, as stored with results.</summary>
    public static string Software { get; } = typeof(RunRecord).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "unknown";

    private static string KeyOf(Declaration declaration, Arguments arguments, RunInput[] inputs)
    {
        var json = JsonSerializer.Serialize(new
        {
            Reading = declaration.Id,
            declaration.Version,
            Parameters = arguments.Texts.OrderBy(p => p.Name, StringComparer.Ordinal).Select(p => new { p.Name, p.Value }),
            Inputs = inputs.Select(i => i.Azimuth is null ? (object)new { i.Slot, i.Sha256, i.Light, i.MmPerPixel } : new { i.Slot, i.Sha256, i.Light, i.MmPerPixel, i.Azimuth, i.Elevation }),
        }, Canonical);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(json)));
    }
}

/// <summary>An image that went into a run.</summary>
/// <param name="Slot">The input slot.</param>
/// <param name="Name">The file's name, for people.</param>
/// <param name="Sha256">Hash of the bytes that were read.</param>
/// <param name="Light">Code of its light, when known.</param>
/// <param name="MmPerPixel">Its scale, when known.</param>
/// <param name="ScaleOrigin">"measured", "distance", "ruler", "metadata" or "assumed".</param>
/// <param name="Azimuth">Its lamp, degrees clockwise from the top, where that counts and is known.</param>
/// <param name="Elevation">Degrees above the plane, likewise.</param>
public sealed record RunInput(string Slot, string Name, string Sha256, string? Light, double? MmPerPixel, string? ScaleOrigin, double? Azimuth = null, double? Elevation = null);
