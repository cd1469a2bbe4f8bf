using System.Globalization;
using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Wordprocessing;
using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Documents.Docx;

/// <summary>The styles of the DOCX: whoever edits it changes a style, not every paragraph.</summary>
internal static class DocxStyles
{
    /// <summary>Left and right margin, and the width of the text, twentieths of a point.</summary>
    public const int Margin = 1360, Measure = 11906 - 2 * Margin;

    private const string Serif = "Source Serif 4", Sans = "Source Sans 3", Grey = "555555";

    public static Styles Styles(Phrases phrases) => new(
        new DocDefaults(new RunPropertiesDefault(new RunPropertiesBaseStyle(Fonts(Serif), new Color { Val = "1C1C1C" }, new FontSize { Val = "21" }, new Languages { Val = phrases.Language == "es" ? "es-ES" : "en-GB" })),
            new ParagraphPropertiesDefault(new ParagraphPropertiesBaseStyle(new SpacingBetweenLines { Before = "0", After = "120", Line = "288", LineRule = LineSpacingRuleValues.Auto }))),
        Named("Normal", null, isDefault: true), Named("Title", 50, after: 160, isBold: true), Named("Subtitle", 25, font: Sans, colour: Grey, before: 400, after: 0, next: "Title"),
        Heading(1, 32, 480), Heading(2, 25, 320), Heading(3, 22, 240), Named("Lead", 24, colour: Grey), Named("Small", 18, colour: Grey), Named("Letterhead", 19, font: Sans, after: 0),
        Named("ContentsHeading", 32, isBold: true), Named("TOC1", 21, after: 40, name: "toc 1"), Named("TOC2", 20, after: 20, indent: 440, name: "toc 2"),
        Named("Caption", 18, font: Sans, before: 60, after: 200, name: "caption"), Named("Picture", 21, after: 0, keepNext: true), Named("TableText", 17, font: Sans, before: 30, after: 30), Named("TableHead", 17, font: Sans, before: 30, after: 30, isBold: true),
        Named("FactName", 19, font: Sans, colour: Grey, after: 20), Named("Fact", 21, after: 20), Named("Aside", 19, font: Sans, before: 160, keepNext: true, isBold: true), Named("Gap", 8, after: 60),
        Boxed("Remark", 12, "8A8A8A"), Boxed("Warning", 12, "1C1C1C"), Boxed("Caution", 28, "1C1C1C"), Bullet(),
        Named("SignRole", 19, font: Sans, colour: Grey, before: 240, after: 0), Line(), Foot("Header"), Foot("Footer"),
        Letters("Strong", new Bold()), Letters("Emphasis", new Italic()), Letters("Code", Fonts(Sans), new FontSize { Val = "16" }), Letters("Uncertainty", new FontSize { Val = "15" }));

    /// <summary>Headings are numbered by their styles; bullets have a list of their own.</summary>
    public static Numbering Lists() => new(
        new AbstractNum([new MultiLevelType { Val = MultiLevelValues.Multilevel }, .. Enumerable.Range(0, 3).Select(i => new Level(new StartNumberingValue { Val = 1 }, new NumberingFormat { Val = NumberFormatValues.Decimal }, new ParagraphStyleIdInLevel { Val = $"Heading{i + 1}" },
            new LevelText { Val = string.Join('.', Enumerable.Range(1, i + 1).Select(n => $"%{n}")) }, new LevelJustification { Val = LevelJustificationValues.Left }, new PreviousParagraphProperties(new Indentation { Left = "0", FirstLine = "0" })) { LevelIndex = i })]) { AbstractNumberId = 1 },
        new AbstractNum(new MultiLevelType { Val = MultiLevelValues.SingleLevel }, new Level(new StartNumberingValue { Val = 1 }, new NumberingFormat { Val = NumberFormatValues.Bullet }, new LevelText { Val = "\u2022" }, new LevelJustification { Val = LevelJustificationValues.Left },
            new PreviousParagraphProperties(new Indentation { Left = "280", Hanging = "220" })) { LevelIndex = 0 }) { AbstractNumberId = 2 },
        new NumberingInstance(new AbstractNumId { Val = 1 }) { NumberID = 1 }, new NumberingInstance(new AbstractNumId { Val = 2 }) { NumberID = 2 });

    private static Style Named(string id, int? size, string font = Serif, string? colour = null, int before = 0, int after = 120, int indent = 0, bool isBold = false, bool keepNext = false, bool isDefault = false, string? next = null, string? name = null)
    {
        var style = new Style { Type = StyleValues.Paragraph, StyleId = id, Default = isDefault ? true : null };
        style.Append(new StyleName { Val = name ?? id });
        if (!isDefault) style.Append(new BasedOn { Val = "Normal" });
        if (next is not null) style.Append(new NextParagraphStyle { Val = next });
        style.Append(new PrimaryStyle());
        var paragraph = new StyleParagraphProperties();
        if (keepNext) paragraph.KeepNext = new KeepNext();
        paragraph.SpacingBetweenLines = new SpacingBetweenLines { Before = Text(before), After = Text(after) };
        if (indent > 0) paragraph.Indentation = new Indentation { Left = Text(indent) };
        style.Append(paragraph);
        var letters = new StyleRunProperties();
        if (font != Serif) letters.RunFonts = Fonts(font);
        if (isBold) letters.Bold = new Bold();
        if (colour is not null) letters.Color = new Color { Val = colour };
        if (size is { } half) letters.FontSize = new FontSize { Val = Text(half) };
        if (letters.HasChildren) style.Append(letters);
        return style;
    }

    private static Style Heading(int level, int size, int before)
    {
        var style = Named($"Heading{level}", size, before: before, after: 80, isBold: true, keepNext: true, next: "Normal", name: $"heading {level}");
        style.StyleParagraphProperties!.NumberingProperties = new NumberingProperties(new NumberingLevelReference { Val = level - 1 }, new NumberingId { Val = 1 });
        style.StyleParagraphProperties.OutlineLevel = new OutlineLevel { Val = level - 1 };
        return style;
    }

    private static Style Bullet()
    {
        var style = Named("ListBullet", 21, after: 60, name: "List Bullet");
        style.StyleParagraphProperties!.NumberingProperties = new NumberingProperties(new NumberingId { Val = 2 });
        return style;
    }

    private static Style Boxed(string id, uint size, string colour)
    {
        var style = Named(id, 20, before: 80);
        style.StyleParagraphProperties!.ParagraphBorders = new ParagraphBorders(new LeftBorder { Val = BorderValues.Single, Size = size, Space = 8, Color = colour });
        style.StyleParagraphProperties.Shading = new Shading { Val = ShadingPatternValues.Clear, Color = "auto", Fill = "F1F1F1" };
        style.StyleParagraphProperties.Indentation = new Indentation { Left = "200" };
        return style;
    }

    private static Style Line()
    {
        var style = Named("SignLine", 21, before: 400, after: 0);
        style.StyleParagraphProperties!.ParagraphBorders = new ParagraphBorders(new BottomBorder { Val = BorderValues.Single, Size = 4, Space = 2, Color = "6A6A6A" });
        return style;
    }

    private static Style Foot(string id)
    {
        var style = Named(id, 16, font: Sans, colour: Grey, after: 0, name: id.ToLowerInvariant());
        style.StyleParagraphProperties!.Tabs = new Tabs(new TabStop { Val = TabStopValues.Right, Position = Measure });
        return style;
    }

    private static Style Letters(string id, params OpenXmlElement[] properties) => new(new StyleName { Val = id }, new PrimaryStyle(), new StyleRunProperties(properties)) { Type = StyleValues.Character, StyleId = id };

    private static RunFonts Fonts(string name) => new() { Ascii = name, HighAnsi = name, ComplexScript = name };

    private static string Text(int value) => value.ToString(CultureInfo.InvariantCulture);
}
