using Sandarac.Analysis.Rings;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Rings;

/// <summary>Ring series of a painting's boards on record.</summary>
public sealed class RingSeriesRecords(OpenStudio studio) : WrittenRecords<RingSeries, RingSeriesContent>(studio, "ring-series")
{
    /// <summary>Most rings of a board.</summary>
    public const int MostRings = 2000;

    private const double Widest = 100;

    /// <summary>A series as it is compared: the record has no year 0, the comparison counts with one.</summary>
    public static RingWidths Widths(RingSeriesContent content) => new(content.Name, content.FirstYear is { } first ? first < 0 ? first + 1 : first : 1, content.WidthsMm, content.FirstYear is not null);

    /// <summary>A year that was counted with a year 0, as the record has it.</summary>
    public static int Recorded(int year) => year > 0 ? year : year - 1;

    /// <summary>Year of the first of so many rings, of which the last grew in a year; both as the record has them.</summary>
    public static int FirstYear(int lastYear, int rings) => Recorded((lastYear < 0 ? lastYear + 1 : lastYear) - rings + 1);

    private protected override RingSeries Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override RingSeriesContent Checked(StudioDb db, RingSeries row, RingSeriesContent content)
    {
        CheckRings(content);
        CheckDate(content);
        if (content.PhotographId is { } photograph) db.RequirePhotograph(row.PaintingId, photograph);
        if (content.RunId is { } run && !db.Runs.Any(r => r.Id == run && r.PaintingId == row.PaintingId && r.ReadingId == RingDesk.ReadingId && r.State == RunState.Done)) throw Wrong("unknown-run", run.ToString(), "This run did not measure rings of this painting.", "Propose ring boundaries first.");
        var name = Name("name", content.Name);
        if (db.RingSeries.Any(s => s.PaintingId == row.PaintingId && s.Id != row.Id && s.DeletedAt == null && s.Content.Name == name)) throw Wrong("ring-name", "name", $"Another series of this painting is called {name}.", "Give it a name of its own.");
        return content with { Name = name, Board = content.Board.Trim(), DateBasis = content.DateBasis.Trim() };
    }

    private static void CheckRings(RingSeriesContent content)
    {
        if (content.WidthsMm.Count is 0 or > MostRings) throw Wrong("ring-widths", "widthsMm", $"A series has 1 to {MostRings} rings.", "Import a file of ring widths, or measure them on a photograph.");
        if (content.WidthsMm.Any(w => !(w is >= 0 and <= Widest))) throw Wrong("ring-widths", "widthsMm", "A width is not a number of mm from 0 to 100.", "0 stands for a ring that is absent; divide the series where rings were not measured.");
        if (content.BoundariesMm.Count > 0 && (content.BoundariesMm.Count != content.WidthsMm.Count + 1 || content.BoundariesMm.Zip(content.BoundariesMm.Skip(1)).Any(b => !(b.Second > b.First)) || content.BoundariesMm.Any(b => !double.IsFinite(b))))
            throw Wrong("ring-boundaries", "boundariesMm", "Boundaries are one more than rings and follow one another along the line.", "Give them in mm from the line's begin, in their order.");
        if (content.Line.Count is not (0 or 2) || content.Line.Any(p => !double.IsFinite(p.X) || !double.IsFinite(p.Y))) throw Wrong("ring-line", "line", "The line has two points.", "Give both in pixels of the photograph.");
    }

    private static void CheckDate(RingSeriesContent content)
    {
        if (content.SapwoodRings is { } sapwood && !(sapwood >= 0 && sapwood <= content.WidthsMm.Count)) throw Wrong("sapwood-rings", "sapwoodRings", $"{sapwood} sapwood rings of {content.WidthsMm.Count} cannot be.", "Count the sapwood rings among those that were measured; leave it empty where nobody counted.");
        if (content.FirstYear is not { } first) return;
        if (first is 0 or < -15000 || Widths(content).LastYear > 2200) throw Wrong("ring-year", "firstYear", $"{first} is not the year of a first ring.", "Give a year; there is no year 0.");
        if (string.IsNullOrWhiteSpace(content.DateBasis)) throw Wrong("ring-date-basis", "dateBasis", "The date does not say what it rests on.", "Say which references agree and who looked at the curves.");
    }
}
