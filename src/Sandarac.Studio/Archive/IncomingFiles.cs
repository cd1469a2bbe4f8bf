using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio.Archive.BagIt;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive;

/// <summary>A package's files on their way into the store: copied under names of our own, compared with their hashes, pyramids opened and compared with what the record says of them; put in place only then.</summary>
internal sealed class IncomingFiles(OpenStudio studio, RecordFile record) : IDisposable
{
    private readonly List<(PackedObject Object, string Path)> _waiting = [];

    /// <summary>Copies those that the studio does not have yet.</summary>
    /// <exception cref="InputProblem">A file is not what the record says.</exception>
    public void Bring(IBagSource source, StudioDb db, IProgress<double>? progress, CancellationToken cancellation)
    {
        var files = source.Files.ToDictionary(f => f.Path, StringComparer.Ordinal);
        var pyramids = Pyramids();
        var (total, done) = (Math.Max(1.0, record.Objects.Sum(o => (double)o.Bytes)), 0.0);
        foreach (var o in record.Objects.Where(o => !IsHere(db, o)))
        {
            var path = studio.Objects.NewTemporaryPath();
            _waiting.Add((o, path));
            using (var stream = source.Open(files[$"data/{o.Path}"])) Copy(stream, o, path, bytes => progress?.Report((done += bytes) / total), cancellation);
            foreach (var facts in pyramids[o.Sha256]) RequirePyramid(path, o, facts);
        }
    }

    /// <summary>Puts them into the store, where nobody speaks of them until the record is saved.</summary>
    public void Adopt()
    {
        foreach (var (o, path) in _waiting) studio.Objects.Adopt(path, o.Sha256, o.MediaType, o.IsDerived);
    }

    /// <summary>The record speaks of them now.</summary>
    public void Confirm()
    {
        foreach (var (o, _) in _waiting) studio.Objects.Confirm(o.Sha256);
    }

    public void Dispose()
    {
        foreach (var (_, path) in _waiting) File.Delete(path);
    }

    private bool IsHere(StudioDb db, PackedObject o) => db.Objects.AsNoTracking().Any(known => known.Sha256 == o.Sha256) && studio.Objects.Contains(o.Sha256);

    private static void Copy(Stream stream, PackedObject o, string path, Action<int> copied, CancellationToken cancellation)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        try
        {
            using var target = new FileStream(path, FileMode.CreateNew, FileAccess.Write);
            Copying.Copy(stream, target, bytes =>
            {
                hash.AppendData(bytes);
                copied(bytes.Length);
            }, cancellation);
        }
        catch (InvalidDataException e)
        {
            throw RecordReading.Damaged(o.Path, e.Message, e);
        }
        if (Convert.ToHexStringLower(hash.GetHashAndReset()) != o.Sha256) throw RecordReading.Damaged(o.Path, "The file does not have the hash under which the record knows it.");
    }

    private ILookup<string, PyramidFacts> Pyramids() => record.Rows.Model.Tables
        .SelectMany(t => t.Objects.Where(c => c.Type == typeof(PyramidFacts)).SelectMany(c => record.Rows.Of(t).Select(c.Get))).OfType<PyramidFacts>().Distinct().ToLookup(f => f.Sha256);

    /// <summary>Pyramids are carried and not made anew: another version of the image library would give other bytes, and with them another hash than the one that the runs which read them have on record.</summary>
    private static void RequirePyramid(string path, PackedObject o, PyramidFacts facts)
    {
        try
        {
            using var pyramid = PyramidFile.Open(path);
            var format = pyramid.Format switch { TileFormat.UInt8 => SampleFormat.UInt8, TileFormat.UInt16 => SampleFormat.UInt16, _ => SampleFormat.Float };
            if ((pyramid.Width, pyramid.Height, pyramid.Levels.Count, pyramid.Bands, format) == (facts.Width, facts.Height, facts.Levels, facts.Bands.Count, facts.Format)) return;
        }
        catch (Exception e) when (e is InvalidDataException or EndOfStreamException)
        {
            throw RecordReading.Damaged(o.Path, $"The file is no pyramid of tiles: {e.Message}", e);
        }
        throw RecordReading.Damaged(o.Path, "The file is a pyramid of tiles of another size or kind than the record says.");
    }
}
