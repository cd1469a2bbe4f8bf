using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Rings;
using Sandarac.Analysis.Rings.Files;
using Sandarac.Analysis.Rings.Measuring;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Rings;

/// <summary>Brings ring widths into the record, from files and from photographs, and out of it.</summary>
public sealed class RingDesk(OpenStudio studio)
{
    /// <summary>The reading that measures rings.</summary>
    public static string ReadingId { get; } = new RingWidthsReading().Declaration.Id;

    /// <summary>Most series taken from one file: a painting has few boards.</summary>
    public const int MostSeries = 40;

    /// <summary>Runs that found rings on the painting's photographs, newest first.</summary>
    public IReadOnlyList<Run> Runs(Guid paintingId)
    {
        using var db = studio.CreateDb();
        return [.. db.Runs.AsNoTracking().Where(r => r.PaintingId == paintingId && r.ReadingId == ReadingId && r.State == RunState.Done).OrderByDescending(r => r.QueuedAt)];
    }

    /// <summary>Writes every series of a file into the record; all or none.</summary>
    /// <exception cref="InputProblem">Not a file of ring widths; too many series; rings that were not measured ("rings-unmeasured"); a name that is taken.</exception>
    public IReadOnlyList<RingSeries> Import(Guid paintingId, string fileName, Stream content, string userName)
    {
        var series = RingFile.Parse(fileName, content);
        if (series.Count > MostSeries) throw new InputProblem("rings-many", fileName, $"{fileName} holds {series.Count} series, more than a painting has boards.", "Import the painting's own boards here; references are added as references.");
        if (series.FirstOrDefault(s => s.Widths.Any(double.IsNaN)) is { } gap) throw new InputProblem("rings-unmeasured", gap.Id, $"{gap.Id} in {fileName} has rings that were not measured.", "Divide it there into two series.");
        var records = new RingSeriesRecords(studio);
        using var db = studio.CreateDb();
        db.RequirePainting(paintingId);
        using var held = db.HoldPainting(paintingId);
        RingSeries[] rows = [.. series.Select(s => records.Add(db, paintingId, Content(fileName, s), userName))];
        db.SaveChanges();
        held.Commit();
        return rows;
    }

    /// <summary>The painting's series in the exchange format.</summary>
    /// <exception cref="InputProblem">"unknown-painting"; there are none ("no-ring-series"); two ids that the format cannot tell apart.</exception>
    public string Export(Guid paintingId) => new RingSeriesRecords(studio).Of(paintingId) is { Count: > 0 } rows ? TucsonFile.Write([.. rows.Select(r => RingSeriesRecords.Widths(r.Content))])
        : throw new InputProblem("no-ring-series", paintingId.ToString(), "The painting has no ring series.", "Import or measure one first.");

    /// <summary>Makes a series of the rings that a run found; a person then checks every boundary.</summary>
    /// <exception cref="InputProblem">The run did not find rings of this painting ("unknown-run"); a name that is taken.</exception>
    public RingSeries TakeOver(Guid paintingId, Guid runId, string name, string board, string userName)
    {
        var run = Runs(paintingId).FirstOrDefault(r => r.Id == runId) ?? throw new InputProblem("unknown-run", runId.ToString(), "This run did not find rings of this painting.", "Propose ring boundaries first.");
        var (line, mm) = (LineOf(run), ScaleOf(run)!.Value);
        double[] x = Figures(run, "boundary-x"), y = Figures(run, "boundary-y");
        return new RingSeriesRecords(studio).Create(paintingId, new RingSeriesContent
        {
            Name = name, Board = board, PhotographId = run.Inputs[0].PhotographId, RunId = run.Id, Line = line,
            BoundariesMm = [.. x.Zip(y, (a, b) => Math.Round(line[0].DistanceTo(new Point2(a, b)) * mm, 4))],
            WidthsMm = [.. Figures(run, "ring-width").Select(w => Math.Round(w, 4))],
            Origin = string.Create(CultureInfo.InvariantCulture, $"{run.Inputs[0].FileName}, {mm:0.#####} mm a pixel ({(mm == run.Inputs[0].MmPerPixel ? $"{run.Inputs[0].ScaleOrigin}".ToLowerInvariant() : "entered")}), reading {run.ReadingId} {run.ReadingVersion}"),
        }, userName);
    }

    /// <summary>A series that begins in year 1 is not dated: the exchange format has no other way to say so.</summary>
    private static RingSeriesContent Content(string fileName, RingWidths series) => series is { IsDated: true, FirstYear: not 1 }
        ? new() { Name = series.Id, WidthsMm = series.Widths, Origin = $"file {fileName}", FirstYear = RingSeriesRecords.Recorded(series.FirstYear), DateBasis = $"as {fileName} states it" }
        : new() { Name = series.Id, WidthsMm = series.Widths, Origin = $"file {fileName}" };

    /// <summary>Millimetres a pixel as the run took them; null when it had none.</summary>
    internal static double? ScaleOf(Run run) => RingWidthsReading.ScaleOf(run.Parameters, run.Inputs[0].MmPerPixel);

    /// <summary>The line as it was given, else along the middle of the photograph as the reading has it.</summary>
    private IReadOnlyList<Point2> LineOf(Run run)
    {
        double At(string parameter) => double.Parse(run.Parameters[parameter], CultureInfo.InvariantCulture);
        Point2 from = new(At("from-x"), At("from-y")), to = new(At("to-x"), At("to-y"));
        if (from.X >= 0) return [from, to];
        using var db = studio.CreateDb();
        var facts = db.Photographs.AsNoTracking().First(p => p.Id == run.Inputs[0].PhotographId).Facts;
        return RingWidthsReading.MiddleLine(facts.Width, facts.Height);
    }

    private static double[] Figures(Run run, string name) => [.. run.Figures.Where(f => f.Name == name).Select(f => f.Value!.Value)];
}
