using SkiaSharp;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>Something of a known height that is never divided between pages. It is drawn only when its page is written.</summary>
/// <param name="Height">Height, points.</param>
/// <param name="Draw">Draws it with its upper left corner at a place.</param>
internal sealed record Box(float Height, Action<SKCanvas, float, float> Draw)
{
    /// <summary>Room above it, but not at the head of a page.</summary>
    public float Before { get; init; }

    /// <summary>Whether what comes next must stand on the same page.</summary>
    public bool IsTiedToNext { get; init; }

    /// <summary>What is drawn again above it when it begins a page: the head of its table.</summary>
    public Box? Head { get; init; }

    /// <summary>Where links to it lead.</summary>
    public string? Anchor { get; init; }

    /// <summary>Whether it begins a page.</summary>
    public bool BeginsPage { get; init; }

    /// <summary>Lines as boxes; neither the first line nor the last one of several is left alone on a page.</summary>
    public static IEnumerable<Box> Lines(IReadOnlyList<TextLine> lines, Look look, float before, float indent = 0) => lines.Select((l, i) => new Box(Sheet.Leading(look), (c, x, y) => l.Draw(c, x + indent, y + Sheet.Ascent(look)))
    {
        Before = i == 0 ? before : 0, IsTiedToNext = lines.Count > 1 && i == 0 || i == lines.Count - 2,
    });
}
