namespace Sandarac.Studio.Documents.Model;

/// <summary>A part of a section: a paragraph, a table, pictures ...</summary>
public abstract record Block;

/// <summary>How a paragraph is set.</summary>
public enum ParagraphLook
{
    /// <summary>Running text.</summary>
    Body,

    /// <summary>An opening line.</summary>
    Lead,

    /// <summary>Smaller: methods, sources.</summary>
    Small,
}

/// <summary>A paragraph.</summary>
/// <param name="Text">Its text.</param>
/// <param name="Look">How it is set.</param>
public sealed record Paragraph(Prose Text, ParagraphLook Look = ParagraphLook.Body) : Block;

/// <summary>Points one below the other.</summary>
/// <param name="Items">The points.</param>
public sealed record BulletList(IReadOnlyList<Prose> Items) : Block;

/// <summary>A named fact.</summary>
/// <param name="Name">What it is: "Support".</param>
/// <param name="Value">What is known.</param>
public sealed record Fact(string Name, Prose Value);

/// <summary>Named facts one below the other.</summary>
/// <param name="Items">The facts.</param>
public sealed record Facts(IReadOnlyList<Fact> Items) : Block;

/// <summary>What a column holds.</summary>
public enum ColumnKind
{
    /// <summary>Words, set from the left.</summary>
    Words,

    /// <summary>Figures, set with their decimal signs below one another.</summary>
    Number,
}

/// <summary>A column.</summary>
/// <param name="Title">Its title, with the unit for figures.</param>
/// <param name="Kind">What it holds.</param>
/// <param name="Share">For words: how much of the width it takes, beside the others' shares. Figures take what they need.</param>
public sealed record Column(Prose Title, ColumnKind Kind = ColumnKind.Words, double Share = 1);

/// <summary>A table; its head is repeated on every page that it runs over.</summary>
/// <param name="Caption">What it shows, set above it.</param>
/// <param name="Columns">Its columns.</param>
/// <param name="Rows">Its rows, each with a cell for every column.</param>
public sealed record Table(Prose Caption, IReadOnlyList<Column> Columns, IReadOnlyList<IReadOnlyList<Prose>> Rows) : Block;

/// <summary>How long a bar of a length on the object is, and what that rests on.</summary>
/// <param name="WidthMm">Width of the picture on the object, mm, greater than 0.</param>
/// <param name="Rests">What the length rests on, after the figure; empty when it was measured.</param>
public sealed record PictureScale(double WidthMm, string Rests = "");

/// <summary>A picture with its scale bar and caption; these are never separated.</summary>
/// <param name="Picture">The picture.</param>
/// <param name="Caption">What it shows.</param>
/// <param name="Alt">What it shows for who cannot see it.</param>
/// <param name="Scale">Its scale; null when there is none, which <paramref name="Caption"/> then explains.</param>
/// <param name="Licence">Who may use it how; empty when nobody said.</param>
public sealed record Plate(Picture Picture, Prose Caption, string Alt, PictureScale? Scale = null, string Licence = "");

/// <summary>Pictures side by side.</summary>
/// <param name="Items">The pictures.</param>
/// <param name="Columns">How many stand beside each other, 1 to 4.</param>
public sealed record Plates(IReadOnlyList<Plate> Items, int Columns = 1) : Block;

/// <summary>What a note is for.</summary>
public enum NoteKind
{
    /// <summary>Something to know.</summary>
    Remark,

    /// <summary>A result stands, but whoever uses it must know this.</summary>
    Warning,

    /// <summary>Work that can hurt someone.</summary>
    Caution,
}

/// <summary>A note set apart from the text.</summary>
/// <param name="Kind">What it is for.</param>
/// <param name="Text">Its text.</param>
public sealed record Note(NoteKind Kind, Prose Text) : Block;

/// <summary>What a hatch, outline or sign of a drawing stands for.</summary>
/// <param name="Swatch">A piece of it.</param>
/// <param name="Text">What it stands for.</param>
public sealed record LegendEntry(DrawingPicture Swatch, Prose Text);

/// <summary>The key of a drawing.</summary>
/// <param name="Entries">Its entries.</param>
public sealed record Legend(IReadOnlyList<LegendEntry> Entries) : Block;

/// <summary>Details that a page on a screen may fold away.</summary>
/// <param name="Summary">What they are.</param>
/// <param name="Blocks">The details.</param>
public sealed record Aside(string Summary, IReadOnlyList<Block> Blocks) : Block;

/// <summary>Who signs, as what and when; what nobody gave is left open to be written by hand.</summary>
/// <param name="Role">"Conservator", "Owner or authorised custodian".</param>
/// <param name="Name">Who.</param>
/// <param name="At">When.</param>
public sealed record SignatureLine(string Role, string Name = "", string At = "");

/// <summary>Lines to sign on.</summary>
/// <param name="Lines">Who signs.</param>
public sealed record Signatures(IReadOnlyList<SignatureLine> Lines) : Block;
