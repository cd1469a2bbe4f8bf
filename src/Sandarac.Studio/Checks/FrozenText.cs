using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>A text that people sign or approve: written once in canonical form, told from any other by its hash, read back whenever somebody doubts it.</summary>
/// <param name="Text">Canonical JSON.</param>
/// <param name="Sha256">SHA-256 of its UTF-8 bytes, hex.</param>
internal sealed record FrozenText(string Text, string Sha256)
{
    /// <summary>Freezes a content.</summary>
    public static FrozenText Of(object content)
    {
        var text = CanonicalJson.Of(content);
        return new FrozenText(text, HashOf(text));
    }

    /// <summary>Whether the text is still the one whose hash was taken.</summary>
    public bool IsIntact => HashOf(Text).Equals(Sha256, StringComparison.OrdinalIgnoreCase);

    /// <summary>What the text says; null when it is no such text.</summary>
    /// <param name="isOurs">Whether it names its format.</param>
    public T? Read<T>(Predicate<T> isOurs) where T : class
    {
        try
        {
            return JsonSerializer.Deserialize<T>(Text, StudioJson.Options) is { } content && isOurs(content) ? content : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>A name, role or the like under such a text, in one line.</summary>
    /// <exception cref="InputProblem">It is missing, too long or not one line ("signature").</exception>
    public static string Line(string field, string? text, int longest = 200) => text?.Trim() is { Length: > 0 } line && line.Length <= longest && !line.Any(char.IsControl) ? line
        : throw new InputProblem("signature", field, $"The {field} is missing, or longer than {longest} letters.", $"Give the {field} in one line.");

    private static string HashOf(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
