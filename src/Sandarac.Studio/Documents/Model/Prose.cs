using Sandarac.Analysis.Declaring;

namespace Sandarac.Studio.Documents.Model;

/// <summary>How a piece of text is set.</summary>
public enum SpanLook
{
    /// <summary>As the text around it.</summary>
    Plain,

    /// <summary>Italic.</summary>
    Emphasis,

    /// <summary>Semi-bold.</summary>
    Strong,

    /// <summary>A name or hash that may be broken anywhere.</summary>
    Code,

    /// <summary>Smaller: an uncertainty, a unit.</summary>
    Small,
}

/// <summary>A piece of text in one look.</summary>
/// <param name="Text">The text.</param>
/// <param name="Look">How it is set.</param>
public sealed record Span(string Text, SpanLook Look = SpanLook.Plain);

/// <summary>Text with emphasis. Plain strings are prose too.</summary>
/// <param name="Spans">Its pieces, set without anything between them.</param>
public sealed record Prose(IReadOnlyList<Span> Spans)
{
    /// <summary>No text.</summary>
    public static Prose Empty { get; } = new([]);

    /// <summary>The words alone.</summary>
    public string Plain => string.Concat(Spans.Select(s => s.Text));

    /// <summary>Plain text as prose.</summary>
    public static implicit operator Prose(string text) => Of(text);

    /// <summary>Plain text as prose.</summary>
    public static Prose Of(string text, SpanLook look = SpanLook.Plain) => text.Length == 0 ? Empty : new([new Span(text, look)]);

    /// <summary>A figure as people write it: no digit that its uncertainty does not bear, the uncertainty smaller.</summary>
    /// <param name="value">The value.</param>
    /// <param name="uncertainty">Half-width of its interval; null when there is none.</param>
    /// <param name="phrases">Whose decimal sign it takes.</param>
    /// <param name="unit">What it is measured in; may be empty.</param>
    public static Prose Measured(double value, double? uncertainty, Phrasing.Phrases phrases, string unit = "")
    {
        var (number, spread) = Rounding.Rounded(value, uncertainty);
        List<Span> spans = [new(phrases.Decimal(number))];
        // The spaces do not break: a figure stays with its uncertainty and its unit.
        if (spread is not null) spans.Add(new Span($"\u00A0\u00B1\u00A0{phrases.Decimal(spread)}", SpanLook.Small));
        if (unit.Length > 0) spans.Add(new Span($"\u00A0{unit}", SpanLook.Small));
        return new Prose(spans);
    }

    /// <summary>One after the other.</summary>
    public static Prose operator +(Prose first, Prose second) => new([.. first.Spans, .. second.Spans]);
}
