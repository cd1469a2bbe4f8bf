using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Keeps the marks that a person is teaching with.</summary>
public sealed class MarkSheets(OpenStudio studio)
{
    /// <summary>A sheet without marks.</summary>
    public const string NoMarks = """{"type":"FeatureCollection","features":[]}""";

    private const int LongestName = 80;

    /// <summary>A painting's sheet; an empty one of revision 0 before anything was stored.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public MarkSheet Of(Guid paintingId)
    {
        using var db = studio.CreateDb();
        db.RequirePainting(paintingId);
        return db.MarkSheets.AsNoTracking().FirstOrDefault(s => s.PaintingId == paintingId) ?? Empty(paintingId);
    }

    /// <summary>Stores a sheet.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="revision">The revision the change was made on.</param>
    /// <param name="content">What it holds now.</param>
    /// <exception cref="InputProblem">"unknown-painting"; "unknown-photograph"; "mark-classes": too many, without a name, or the same twice; "marks": not sound, or of a class that is not there; "parameter-value": a stroke's width that
    /// the reading does not take; "marks-changed": someone changed the sheet meanwhile.</exception>
    public MarkSheet Store(Guid paintingId, int revision, MarkSheetContent content)
    {
        using var db = studio.CreateDb();
        db.RequirePainting(paintingId);
        var known = Checked(db, paintingId, content);
        var sheet = db.MarkSheets.FirstOrDefault(s => s.PaintingId == paintingId);
        if ((sheet?.Revision ?? 0) != revision) throw Changed();
        if (sheet is null) db.MarkSheets.Add(sheet = Empty(paintingId));
        (sheet.Content, sheet.Revision, sheet.UpdatedAt) = (known, revision + 1, studio.Now);
        try
        {
            db.SaveChanges();
        }
        catch (DbUpdateException e) when (Of(paintingId).Revision > revision)
        {
            throw Changed(e);
        }
        return sheet;
    }

    /// <summary>A stroke's width as the reading takes it.</summary>
    /// <exception cref="InputProblem">"parameter-value": outside the range that the reading declares.</exception>
    internal static double StrokeWidth(double mm) => Arguments.Resolve(new TaughtZonesReading().Declaration, new Dictionary<string, string> { [TaughtZonesReading.StrokeWidth.Name] = mm.ToString("R", CultureInfo.InvariantCulture) })
        .Value(TaughtZonesReading.StrokeWidth);

    private static MarkSheet Empty(Guid paintingId) => new() { PaintingId = paintingId, Content = new MarkSheetContent([], TaughtZonesReading.StrokeWidth.Default, [], NoMarks) };

    private static MarkSheetContent Checked(StudioDb db, Guid paintingId, MarkSheetContent content)
    {
        string[] classes = [.. content.Classes.Select(c => c.Trim())];
        if (classes.Length > Marks.MostClasses) throw Refuse("mark-classes", "classes", FormattableString.Invariant($"There are {classes.Length} classes."), FormattableString.Invariant($"Give at most {Marks.MostClasses}."));
        if (classes.FirstOrDefault(c => c.Length is 0 or > LongestName) is not null) throw Refuse("mark-classes", "classes", "A class has no name, or too long a one.", FormattableString.Invariant($"Give each class a name of at most {LongestName} letters."));
        if (classes.GroupBy(c => c, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1) is { } twice) throw Refuse("mark-classes", "classes", $"Two classes are called \"{twice.Key}\".", "Give each its own name.");
        if (Marks.Read(content.Marks).Classes.Except(classes).FirstOrDefault() is { } unknown) throw Refuse("marks", "marks", $"There are marks of \"{unknown}\", which is none of the classes.", "Add the class, or take its marks away.");
        foreach (var layer in content.Layers.Where(id => !db.Photographs.Any(p => p.Id == id && p.PaintingId == paintingId)))
            throw new InputProblem("unknown-photograph", layer.ToString(), "There is no such photograph of this painting.", "The painting's page lists its photographs.");
        return new MarkSheetContent(classes, StrokeWidth(content.StrokeMm), [.. content.Layers.Distinct()], Marks.Canonical(content.Marks));
    }

    private static InputProblem Changed(Exception? cause = null) =>
        new("marks-changed", "marks", "The marks were changed meanwhile, in another window.", "Look at them as they are now, or store yours over them.", cause);

    private static InputProblem Refuse(string code, string subject, string message, string remedy) => new(code, subject, message, remedy);
}
