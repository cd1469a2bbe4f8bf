using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Examine;
using Sandarac.Studio.Storage;

namespace Sandarac.Studio;

/// <summary>A folder of photographs in, a measured examination out.</summary>
public sealed class Examining(OpenStudio studio)
{
    /// <summary>
    /// Imports a folder's photographs, puts them on the plane, runs the readings that apply and writes the first document. Examining the same
    /// folder again continues where the last time ended. One photograph's failure never stops the others.
    /// </summary>
    /// <exception cref="InputProblem">The folder is missing or holds no photograph; a size that is not one; a faulty photographs.csv; a lens's frame that cannot be read.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; what was imported stays.</exception>
    public Examination Examine(string folder, ExamineOptions options, IProgress<ExamineProgress>? progress = null, CancellationToken cancellation = default)
    {
        RequireSize("height-mm", options.HeightMm);
        RequireSize("width-mm", options.WidthMm);
        var session = new ExamineSession(studio, folder, options, progress, cancellation);
        session.MeasureLenses();
        new ImportStep(session).Run();
        var runs = new StepRuns(session);
        new AlignStep(session).Run(runs);
        if (!options.CornersOnly)
        {
            new MatchStep(session).Run(runs);
            new MosaicStep(session).Run(runs);
        }
        new ReadingsStep(session).Run(runs);
        session.Report("writing", "first document", 0.98);
        var document = WriteDocument(session.PaintingId!.Value);
        session.Report("writing", "first document", 1);
        using var db = studio.CreateDb();
        return new Examination(db.Paintings.AsNoTracking().First(p => p.Id == session.PaintingId), session.Photographs(db), runs.Done, session.Refusals, session.AlreadyThere, session.Warnings, document);
    }

    private static void RequireSize(string name, double? mm)
    {
        // From a stamp to a wall.
        if (mm is { } size && size is not (>= 5 and <= 30_000))
            throw new InputProblem("size", name, $"{size} mm is not the size of a painting.", "Give the size of the painted face in millimetres, 5 to 30000.");
    }

    private string WriteDocument(Guid paintingId)
    {
        var folder = Directory.CreateDirectory(Path.Combine(studio.Folder, "documents")).FullName;
        var (path, unfinished) = (Path.Combine(folder, $"{paintingId}.html"), Path.Combine(folder, $"{paintingId}.new"));
        File.WriteAllText(unfinished, new FirstDocument(studio).Html(paintingId));
        Durable.FlushFile(unfinished);
        File.Move(unfinished, path, overwrite: true);
        return path;
    }
}
