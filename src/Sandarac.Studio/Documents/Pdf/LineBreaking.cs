using Sandarac.Studio.Documents.Model;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>Breaks text into lines: after blanks, hyphens, slashes and underscores, in hashes anywhere, and within a word only when it alone is wider than the line.</summary>
internal sealed class LineBreaking(Shaper shaper)
{
    /// <summary>Text that stays on one line.</summary>
    private sealed record Unit(List<GlyphRun> Runs, float Width, float Blank, bool EndsLine);

    /// <summary>The lines of a text; one empty line for no text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="look">How plain pieces look.</param>
    /// <param name="width">Width of a line, points.</param>
    public IReadOnlyList<TextLine> Lines(Prose text, Look look, float width)
    {
        List<TextLine> lines = [];
        List<Unit> line = [];
        var used = 0f;
        foreach (var unit in Units(text, look).SelectMany(u => u.Width > width ? Letters(u) : [u]))
        {
            if (line.Count > 0 && used + unit.Width > width) End();
            line.Add(unit);
            used += unit.Width + unit.Blank;
            if (unit.EndsLine) End();
        }
        if (line.Count > 0 || lines.Count == 0) End();
        return lines;

        void End()
        {
            lines.Add(Line(line));
            (line, used) = ([], 0);
        }
    }

    /// <summary>The text on one line, however wide.</summary>
    public TextLine Line(Prose text, Look look) => Line([.. Units(text, look)]);

    /// <summary>Width of the widest unit that is not broken, points.</summary>
    public float Narrowest(Prose text, Look look) => Units(text, look).Select(u => u.Width).DefaultIfEmpty(0).Max();

    private static TextLine Line(List<Unit> units)
    {
        List<(GlyphRun Run, float X)> runs = [];
        var x = 0f;
        foreach (var run in units.SelectMany(u => u.Runs))
        {
            // Neighbours of one look become one run, which keeps the file small.
            if (runs.Count > 0 && runs[^1].Run is var last && last.Face == run.Face && last.Look == run.Look)
                runs[^1] = (last with { Glyphs = [.. last.Glyphs, .. run.Glyphs], Places = [.. last.Places, .. run.Places.Select(p => p + last.Width)], Width = last.Width + run.Width }, runs[^1].X);
            else runs.Add((run, x));
            x += run.Width;
        }
        return new TextLine(runs, x - (units.Count > 0 ? units[^1].Blank : 0));
    }

    private IEnumerable<Unit> Units(Prose text, Look look)
    {
        List<GlyphRun> runs = [];
        var width = 0f;
        foreach (var span in text.Spans)
        {
            var own = LookOf(span.Look, look);
            foreach (var piece in Pieces(Legible.Of(span.Text), span.Look == SpanLook.Code))
            {
                var ends = piece.EndsWith('\n');
                var blank = piece.TrimEnd(' ', '\n') is var word && word.Length < piece.Length && piece.AsSpan(word.Length).Contains(' ') ? shaper.Shape(" ", own)[0] : null;
                runs.AddRange(shaper.Shape(word, own));
                width += shaper.Shape(word, own).Sum(r => r.Width);
                if (blank is not null) runs.Add(blank);
                if (blank is null && !ends && !IsBreak(word, span.Look)) continue;
                yield return new Unit(runs, width, blank?.Width ?? 0, ends);
                (runs, width) = ([], 0);
            }
        }
        if (runs.Count > 0) yield return new Unit(runs, width, 0, false);
    }

    private static bool IsBreak(string word, SpanLook look) => look == SpanLook.Code || word.Length > 0 && word[^1] is '-' or '/' or '_' or '\u2013' or '\u2014';

    /// <summary>Ends of units stay with what is before them.</summary>
    private static IEnumerable<string> Pieces(string text, bool anywhere)
    {
        var from = 0;
        for (var i = 0; i < text.Length; i++)
        {
            var isBlank = text[i] is ' ' or '\n';
            if (isBlank && i + 1 < text.Length && text[i] == ' ' && text[i + 1] is ' ' or '\n') continue;
            // A minus sign before a figure, or a hyphen between two blanks, is no place to break.
            var isHyphen = text[i] is '-' or '/' or '_' or '\u2013' or '\u2014' && i > from && i + 1 < text.Length && text[i + 1] is not (' ' or '\n');
            if (!isBlank && !isHyphen && !(anywhere && i - from >= 3 && !char.IsHighSurrogate(text[i]))) continue;
            yield return text[from..(i + 1)];
            from = i + 1;
        }
        if (from < text.Length) yield return text[from..];
    }

    /// <summary>A unit that no line can hold, cut between its letters.</summary>
    private static IEnumerable<Unit> Letters(Unit unit)
    {
        var inked = unit.Runs.SelectMany(r => r.Glyphs.Select((g, i) => new GlyphRun(r.Face, r.Look, [g], [0], (i + 1 < r.Places.Length ? r.Places[i + 1] : r.Width) - r.Places[i]))).ToList();
        for (var i = 0; i < inked.Count; i++) yield return new Unit([inked[i]], inked[i].Width, 0, unit.EndsLine && i == inked.Count - 1);
    }

    /// <summary>Small pieces are figures' uncertainties and units: 0.82 of the size, as legible as a caption.</summary>
    private static Look LookOf(SpanLook span, Look look) => span switch
    {
        SpanLook.Emphasis => look with { Cut = look.Cut is Cut.Sans or Cut.SansSemiBold ? look.Cut : Cut.SerifItalic },
        SpanLook.Strong => look with { Cut = look.Cut is Cut.Sans or Cut.SansSemiBold ? Cut.SansSemiBold : Cut.SerifSemiBold },
        SpanLook.Code => look with { Cut = Cut.Sans, Size = look.Size * 0.92f },
        SpanLook.Small => look with { Size = look.Size * 0.82f },
        _ => look,
    };
}
