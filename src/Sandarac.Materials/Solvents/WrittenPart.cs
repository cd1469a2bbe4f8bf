using System.Globalization;

namespace Sandarac.Materials.Solvents;

/// <summary>A part of a mixture as people write it: "ethanol 20" in "ethanol 20 + isooctane 80".</summary>
/// <param name="Name">Its name as written.</param>
/// <param name="Percent">The number behind it; null when there is none.</param>
public readonly record struct WrittenPart(string Name, double? Percent)
{
    /// <summary>The parts between plus signs, in order; none in an empty text.</summary>
    public static IReadOnlyList<WrittenPart> In(string text) => [.. text.Split('+', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(One)];

    /// <summary>A number at the end is the share, with or without the percent sign, by point or comma; a name of the table may end in a figure itself.</summary>
    private static WrittenPart One(string piece)
    {
        var at = piece.LastIndexOf(' ');
        return at > 0 && SolventTable.Find(piece) is null && double.TryParse(piece[at..].TrimEnd('%').Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var percent)
            ? new(piece[..at].TrimEnd(), percent) : new(piece, null);
    }
}
