using System.Globalization;
using System.Text;
using HarfBuzzSharp;
using SkiaSharp;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>How letters look.</summary>
internal readonly record struct Look(Cut Cut, float Size, SKColor Colour);

/// <summary>Letters of one file set beside each other.</summary>
/// <param name="Face">Whose letters.</param>
/// <param name="Look">How they look.</param>
/// <param name="Glyphs">Which letters.</param>
/// <param name="Places">Where each begins, points from the run's own beginning.</param>
/// <param name="Width">How far the run reaches, points.</param>
internal sealed record GlyphRun(Face Face, Look Look, ushort[] Glyphs, float[] Places, float Width);

/// <summary>Sets text as letters, with kerning; each look's words once.</summary>
internal sealed class Shaper
{
    /// <summary>Ligatures would be found by nobody who searches the document for the letters.</summary>
    private static readonly Feature[] Features = [Feature.Parse("-liga")];

    /// <summary>Signs that the shipped fonts lack and that plain ones can stand for.</summary>
    private static readonly Dictionary<int, string> Plainer = new()
    {
        [0x00A0] = " ", [0x2009] = " ", [0x202F] = " ", [0x2010] = "-", [0x2011] = "-", [0x2190] = "<-", [0x2192] = "->", [0x2248] = "~", [0x2260] = "=/=", [0x2264] = "<=", [0x2265] = ">=", [0x26A0] = "!",
    };

    private readonly Dictionary<(string, Look), IReadOnlyList<GlyphRun>> _known = [];

    /// <summary>Letters that no shipped font has; they are printed as their numbers.</summary>
    public SortedSet<int> Missing { get; } = [];

    /// <summary>The runs of a piece of text, to be set one after the other.</summary>
    public IReadOnlyList<GlyphRun> Shape(string text, Look look)
    {
        if (!_known.TryGetValue((text, look), out var runs)) _known[(text, look)] = runs = [.. Parts(text, look.Cut).Select(p => Run(p.Face, p.Text, look))];
        return runs;
    }

    private List<(Face Face, string Text)> Parts(string text, Cut cut)
    {
        List<(Face Face, StringBuilder Text)> parts = [];
        foreach (var rune in text.EnumerateRunes().SelectMany(r => Printable(r, cut)))
        {
            // Blanks and signs that several files have stay in the file of the letters before them.
            var face = parts.Count > 0 && parts[^1].Face.Has(rune) ? parts[^1].Face : Face.For(cut, rune)!;
            if (parts.Count == 0 || parts[^1].Face != face) parts.Add((face, new StringBuilder()));
            parts[^1].Text.Append(rune);
        }
        return [.. parts.Select(p => (p.Face, p.Text.ToString()))];
    }

    private Rune[] Printable(Rune rune, Cut cut)
    {
        if (Plainer.TryGetValue(rune.Value, out var plain)) return [.. plain.EnumerateRunes()];
        if (Face.For(cut, rune) is not null) return [rune];
        Missing.Add(rune.Value);
        return [.. string.Create(CultureInfo.InvariantCulture, $"[U+{rune.Value:X4}]").EnumerateRunes()];
    }

    private static GlyphRun Run(Face face, string text, Look look)
    {
        using var buffer = new HarfBuzzSharp.Buffer();
        buffer.AddUtf16(text);
        buffer.GuessSegmentProperties();
        face.Shapes.Shape(buffer, Features);
        var infos = buffer.GetGlyphInfoSpan();
        var positions = buffer.GetGlyphPositionSpan();
        var scale = look.Size / face.Typeface.UnitsPerEm;
        var (glyphs, places, x) = (new ushort[infos.Length], new float[infos.Length], 0f);
        for (var i = 0; i < infos.Length; i++)
        {
            (glyphs[i], places[i]) = ((ushort)infos[i].Codepoint, x + positions[i].XOffset * scale);
            x += positions[i].XAdvance * scale;
        }
        return new GlyphRun(face, look, glyphs, places, x);
    }
}
