using System.Globalization;
using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Wordprocessing;
using Sandarac.Studio.Documents.Model;
using Paragraph = DocumentFormat.OpenXml.Wordprocessing.Paragraph;

namespace Sandarac.Studio.Documents.Docx;

/// <summary>Paragraphs, runs and fields.</summary>
internal static class DocxText
{
    public static Paragraph Paragraph(string style, params IEnumerable<OpenXmlElement> runs)
    {
        var paragraph = new Paragraph(new ParagraphProperties(new ParagraphStyleId { Val = style }));
        paragraph.Append(runs);
        return paragraph;
    }

    public static Paragraph Paragraph(string style, Prose text) => Paragraph(style, Runs(text));

    public static IEnumerable<Run> Runs(Prose text) => text.Spans.Select(s => Run(s.Text, s.Look switch
    {
        SpanLook.Emphasis => "Emphasis",
        SpanLook.Strong => "Strong",
        SpanLook.Code => "Code",
        SpanLook.Small => "Uncertainty",
        _ => null,
    }));

    /// <summary>A caption whose number is a field, so that captions that are added later are counted.</summary>
    /// <param name="pattern">"Figure {0}."</param>
    /// <param name="name">What is counted: "Figure".</param>
    /// <param name="number">The number now.</param>
    /// <param name="text">The caption.</param>
    /// <param name="isAbove">Whether it stands above what it names, and stays with it.</param>
    public static Paragraph Caption(string pattern, string name, int number, Prose text, bool isAbove)
    {
        var parts = pattern.Split("{0}", 2);
        var caption = Paragraph("Caption", [Run(parts[0], "Strong"), .. Field($" SEQ {name} \\* ARABIC ", number.ToString(CultureInfo.InvariantCulture)), Run($"{parts[^1]} ", "Strong"), .. Runs(text)]);
        if (isAbove) caption.ParagraphProperties!.KeepNext = new KeepNext();
        return caption;
    }

    /// <summary>A field with the value that it has now.</summary>
    public static IEnumerable<Run> Field(string instruction, string value) => [.. FieldBegin(instruction, isDirty: false), Run(value, null), FieldEnd()];

    public static IEnumerable<Run> FieldBegin(string instruction, bool isDirty) =>
    [
        new Run(new FieldChar { FieldCharType = FieldCharValues.Begin, Dirty = isDirty ? true : null }), new Run(new FieldCode(instruction) { Space = SpaceProcessingModeValues.Preserve }),
        new Run(new FieldChar { FieldCharType = FieldCharValues.Separate }),
    ];

    public static Run FieldEnd() => new(new FieldChar { FieldCharType = FieldCharValues.End });

    private static Run Run(string text, string? style)
    {
        var run = new Run();
        if (style is not null) run.Append(new RunProperties(new RunStyle { Val = style }));
        var lines = Legible.Of(text).Split('\n');
        for (var i = 0; i < lines.Length; i++)
        {
            if (i > 0) run.Append(new Break());
            run.Append(new Text(lines[i]) { Space = SpaceProcessingModeValues.Preserve });
        }
        return run;
    }
}
