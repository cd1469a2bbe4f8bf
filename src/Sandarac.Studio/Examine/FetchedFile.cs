using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Storing;
using Sandarac.Studio.Record;
using Sandarac.Studio.Storage;

namespace Sandarac.Studio.Examine;

/// <summary>A file brought into the object store, before the record speaks of it; or the reason why it was not.</summary>
internal sealed class FetchedFile
{
    private StoredObject? _original;
    private StoredObject? _pyramid;
    private PyramidFacts? _pyramidFacts;
    private ImageFacts? _facts;

    public Refusal? Refusal { get; private init; }

    public string Sha256 { get; private init; } = "";

    /// <summary>A file that is in the studio already.</summary>
    public static FetchedFile Known(string sha256) => new() { Sha256 = sha256 };

    public static FetchedFile Refused(Refusal refusal) => new() { Refusal = refusal };

    /// <summary>Copies, hashes and makes the pyramid in one pass, then puts both into the store.</summary>
    /// <exception cref="InputProblem">The file cannot be used.</exception>
    public static FetchedFile From(FoundFile file, ObjectStore objects, ImageLimits limits, CancellationToken cancellation)
    {
        var (copy, pyramid) = (objects.NewTemporaryPath(), objects.NewTemporaryPath());
        try
        {
            var taken = Ingest.Run(file.Path, copy, pyramid, limits, null, cancellation);
            var original = objects.Adopt(copy, taken.Sha256, $"image/{taken.Facts.Kind}", isDerived: false);
            var (stored, facts) = NewPyramid.Adopt(objects, pyramid, null, null);
            return new FetchedFile { Sha256 = taken.Sha256, _original = original, _pyramid = stored, _pyramidFacts = facts, _facts = taken.Facts };
        }
        finally
        {
            // Both were moved away, unless something went wrong.
            File.Delete(copy);
            File.Delete(pyramid);
        }
    }

    public Photograph ToPhotograph(Guid paintingId, string name, DateTime now) => new()
    {
        PaintingId = paintingId,
        FileName = name,
        Sha256 = Sha256,
        Facts = _facts!,
        Pyramid = _pyramidFacts,
        TakenAt = _facts!.TakenAt,
        ImportedAt = now,
        Warnings = _facts.Warnings,
    };

    /// <summary>Saves the unit of work with the objects' rows; from here on they are spoken of.</summary>
    public void Keep(StudioDb db, ObjectStore objects)
    {
        db.SaveWithObjects([_original!, _pyramid!]);
        objects.Confirm(_original!.Sha256);
        objects.Confirm(_pyramid!.Sha256);
    }
}
