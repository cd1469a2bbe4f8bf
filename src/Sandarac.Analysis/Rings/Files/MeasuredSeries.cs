using System.Text.Json;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Rings.Files;

/// <summary>Takes the widths that the reading ring-widths wrote on bare files.</summary>
public static class MeasuredSeries
{
    /// <summary>The widths in a <c>figures.json</c>, without dates; the series is called after its folder.</summary>
    /// <exception cref="InputProblem">Not such a file, or one without ring widths.</exception>
    public static RingWidths OfFigures(string path)
    {
        try
        {
            using var document = JsonDocument.Parse(File.ReadAllBytes(path));
            double[] widths = [.. document.RootElement.GetProperty("figures").EnumerateArray().Where(f => f.GetProperty("name").GetString() == "ring-width").Select(f => f.GetProperty("value").GetDouble())];
            if (widths.Length > 0) return new RingWidths(Path.GetFileName(Path.GetDirectoryName(Path.GetFullPath(path))) ?? "measured", 1, widths, false);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            throw new InputProblem("figures-not-read", path, $"{path} cannot be read as the figures of a reading.", "Give the figures.json that sandarac read ring-widths wrote.", e);
        }
        throw new InputProblem("rings-empty", path, $"{path} holds no ring widths.", "Give the figures.json that sandarac read ring-widths wrote.");
    }
}
