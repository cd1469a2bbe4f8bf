using System.Globalization;

namespace Sandarac.Studio.Documents.Model;

/// <summary>A section with its number.</summary>
/// <param name="Section">The section.</param>
/// <param name="Number">"2.1".</param>
/// <param name="Level">1 for the outermost.</param>
public sealed record NumberedSection(Section Section, string Number, int Level)
{
    /// <summary>Its name for links within the document.</summary>
    public string Anchor => $"s{Number.Replace('.', '-')}";

    /// <summary>"2.1 Photographs".</summary>
    public string Heading => $"{Number} {Section.Title}";
}

/// <summary>Numbers of sections, figures and tables: the same in every format.</summary>
public sealed class Numbering
{
    private readonly Dictionary<object, int> _numbers = new(ReferenceEqualityComparer.Instance);
    private int _plates, _tables;

    /// <summary>Numbers a document.</summary>
    public Numbering(Document document)
    {
        if (document.Frontispiece is { } plate) _numbers[plate] = ++_plates;
        Count(document.Opening);
        Sections = [.. document.Sections.SelectMany((s, i) => Walk(s, (i + 1).ToString(CultureInfo.InvariantCulture), 1))];
        foreach (var section in Sections) Count(section.Section.Blocks);
    }

    /// <summary>All sections in the order of reading.</summary>
    public IReadOnlyList<NumberedSection> Sections { get; }

    /// <summary>A picture's number.</summary>
    public int Of(Plate plate) => _numbers[plate];

    /// <summary>A table's number; 0 for a table without caption.</summary>
    public int Of(Table table) => _numbers.GetValueOrDefault(table);

    private static IEnumerable<NumberedSection> Walk(Section section, string number, int level) =>
        section.Sections.SelectMany((s, i) => Walk(s, string.Create(CultureInfo.InvariantCulture, $"{number}.{i + 1}"), level + 1)).Prepend(new NumberedSection(section, number, level));

    private void Count(IReadOnlyList<Block> blocks)
    {
        foreach (var block in blocks)
            switch (block)
            {
                case Plates plates:
                    foreach (var plate in plates.Items) _numbers[plate] = ++_plates;
                    break;
                case Table { Caption.Spans.Count: > 0 } table:
                    _numbers[table] = ++_tables;
                    break;
                case Aside aside:
                    Count(aside.Blocks);
                    break;
            }
    }
}
