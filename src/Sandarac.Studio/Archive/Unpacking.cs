using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Archive.BagIt;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive;

/// <summary>Takes a package into a studio: everything in it is looked at before anything enters, and all of it enters in one step, or none.</summary>
public sealed class Unpacking
{
    /// <summary>A painting with a hundred thousand zones and their history has some hundreds.</summary>
    private const long LargestRecord = 1L << 30;

    private readonly OpenStudio _studio;
    private readonly BagLimits _limits;

    /// <summary>Into a studio.</summary>
    public Unpacking(OpenStudio studio) : this(studio, new BagLimits { Bytes = new DriveInfo(studio.Folder).AvailableFreeSpace })
    {
    }

    internal Unpacking(OpenStudio studio, BagLimits limits) => (_studio, _limits) = (studio, limits);

    /// <summary>Looks at a package: whether it is a bag, complete and whole, and whether its record is.</summary>
    /// <exception cref="InputProblem">There is none, or it is refused unread: links, paths that lead out of it, far too much of anything.</exception>
    public static PackageCheck Check(string bag, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        var limits = new BagLimits();
        using var source = BagSources.Open(bag, limits);
        var verdict = BagValidation.Validate(source, limits, progress, cancellation);
        var (files, bytes) = (source.Files.Count, source.Files.Sum(f => f.Bytes));
        if (!verdict.IsValid) return new PackageCheck(verdict.Problems, verdict.Warnings, null, null, files, bytes);
        try
        {
            using var db = SqliteStudioDb.At("Data Source=:memory:");
            var painting = Record(source, RecordModel.Of(db)).Rows.Painting;
            return new PackageCheck([], verdict.Warnings, painting.Title, painting.Id, files, bytes);
        }
        catch (InputProblem e)
        {
            return new PackageCheck([new BagNote(e.Code, e.Subject, e.Message)], verdict.Warnings, null, null, files, bytes);
        }
    }

    /// <summary>Unpacks.</summary>
    /// <exception cref="InputProblem">What makes the package unfit ("bag-invalid", "record-damaged", "record-newer" ...); "painting-there": the painting is in the studio, and not as in the package; "id-clash".</exception>
    /// <exception cref="OperationCanceledException">Cancelled; the studio is as before.</exception>
    public Unpacked Unpack(string bag, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        using var source = BagSources.Open(bag, _limits);
        var verdict = BagValidation.Validate(source, _limits, progress is null ? null : new Part(progress, 0, 0.5), cancellation);
        if (verdict.Problems is [var first, ..])
            throw new InputProblem("bag-invalid", first.Subject, $"{first.Message}{(verdict.Problems.Count == 1 ? "" : $" {verdict.Problems.Count - 1} more such things are wrong.")} ({first.Code})", "The package is not used. Copy it anew from where it came from; `sandarac unpack --check` lists all that is wrong.");
        using var db = _studio.CreateDb();
        var record = Record(source, RecordModel.Of(db));
        var unpacked = new Unpacked(record.Rows.PaintingId, record.Rows.Painting.Title, record.Rows.Model.Tables.Sum(t => record.Rows.Of(t).Count), record.Objects.Count, Arrival.IsThere(db, record.Rows), verdict.Warnings);
        if (unpacked.AlreadyThere) return unpacked;
        Arrival.RequireNew(db, record.Rows);
        db.AddRange(Arrival.NewTerms(db, record.Rows));
        using var files = new IncomingFiles(_studio, record);
        try
        {
            files.Bring(source, db, progress is null ? null : new Part(progress, 0.5, 0.98), cancellation);
            Enter(db, record, files);
        }
        catch (IOException e)
        {
            throw new InputProblem("disk", bag, $"The package could not be taken in: {e.Message}", "See that both disks are there and the studio's has room, then unpack again.", e);
        }
        progress?.Report(1);
        return unpacked;
    }

    private static RecordFile Record(IBagSource source, RecordModel model)
    {
        var file = source.Files.FirstOrDefault(f => f.Path == $"data/{RecordFile.Path}") ?? throw new InputProblem("no-record", RecordFile.Path, "The bag holds no record of a painting.", "It may be a sound bag of something else.");
        if (file.Bytes > LargestRecord) throw RecordReading.Damaged(RecordFile.Path, $"It is larger than {LargestRecord >> 20} MB.");
        using var stream = source.Open(file);
        var record = new RecordReading(model).Read(stream);
        RequireFiles(record, source);
        RecordCheck.Require(record);
        return record;
    }

    private static void RequireFiles(RecordFile record, IBagSource source)
    {
        var files = source.Files.ToDictionary(f => f.Path, f => f.Bytes, StringComparer.Ordinal);
        foreach (var o in record.Objects)
            if (!files.TryGetValue($"data/{o.Path}", out var bytes) || bytes != o.Bytes) throw RecordReading.Damaged(o.Path, "The file is not in the bag, or of another length.");
        if (record.Objects.Select(o => o.Sha256).Distinct().Count() != record.Objects.Count) throw RecordReading.Damaged("objects", "A file is listed twice.");
        var spoken = record.Rows.Model.Tables.SelectMany(t => t.Objects.SelectMany(c => record.Rows.Of(t).Select(c.Get))).Select(v => (v as PyramidFacts)?.Sha256 ?? v as string).ToHashSet();
        if (record.Objects.FirstOrDefault(o => !spoken.Contains(o.Sha256)) is { } unspoken) throw RecordReading.Damaged(unspoken.Path, "No row speaks of the file.");
    }

    private static void Enter(StudioDb db, RecordFile record, IncomingFiles files)
    {
        files.Adopt();
        foreach (var table in record.Rows.Model.Tables.Where(t => t.RowType != typeof(HouseTerm))) db.AddRange(record.Rows.Of(table));
        try
        {
            db.SaveWithObjects(record.Objects.Select(o => o.ToRow()), () => SearchIndex.Complete(db));
        }
        catch (DbUpdateException e)
        {
            throw RecordReading.Damaged(RecordFile.Path, $"The rows do not fit together, or came in meanwhile: {e.InnerException?.Message ?? e.Message}", e);
        }
        files.Confirm();
    }

    private sealed class Part(IProgress<double> whole, double from, double to) : IProgress<double>
    {
        public void Report(double value) => whole.Report(from + value * (to - from));
    }
}
