using Sandarac.Studio.Archive;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Archive;

/// <summary>Two studios, a folder for packages, and a clock that stands: two packages of one record then differ in nothing.</summary>
public class PackStudios : IDisposable
{
    private readonly Lazy<OpenStudio> _b;

    public PackStudios() : this(Database.Sqlite)
    {
    }

    public PackStudios(Database second, PostgresServer? server = null)
    {
        Root = Directory.CreateTempSubdirectory("archive-test-").FullName;
        A = OpenStudio.At(Path.Combine(Root, "a"), clock: new Standing());
        _b = new Lazy<OpenStudio>(() => OpenStudio.At(Path.Combine(Root, "b"), second == Database.Postgres ? server!.NewDatabase() : null, new Standing()));
    }

    public string Root { get; }

    /// <summary>The studio that packs.</summary>
    public OpenStudio A { get; }

    /// <summary>The studio that unpacks.</summary>
    public OpenStudio B => _b.Value;

    public string this[string name] => Path.Combine(Root, name);

    /// <summary>Packs with a document that is quickly made.</summary>
    public static Package Pack(OpenStudio studio, Guid painting, string target, IProgress<double>? progress = null) =>
        new Packing(studio, id => [new PackedDocument("note.txt", "text/plain", stream => stream.Write(id.ToByteArray()))]).Pack(painting, target, progress, TestContext.Current.CancellationToken);

    public static Unpacked Unpack(OpenStudio studio, string bag, IProgress<double>? progress = null) => new Unpacking(studio).Unpack(bag, progress, TestContext.Current.CancellationToken);

    /// <summary>A packed random record of <see cref="A"/> in a folder.</summary>
    public (Guid Painting, string Bag) PackOne(int seed = 1, string name = "bag")
    {
        var painting = RandomRecord.Write(A, seed);
        Pack(A, painting, this[name]);
        return (painting, this[name]);
    }

    /// <summary>Every row of every table of a painting, and of its files, as text.</summary>
    internal static string Rows(OpenStudio studio, Guid painting)
    {
        using var db = studio.CreateDb();
        var rows = RecordRows.Read(db, painting);
        using var stream = new MemoryStream();
        RecordJson.Write(stream, new RecordFile(rows, new PackPlan(db, rows).Objects, ""));
        return System.Text.Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <summary>Nothing was taken in: no row, no file, nothing on its way.</summary>
    public static void AssertEmpty(OpenStudio studio)
    {
        using var db = studio.CreateDb();
        Assert.Empty(db.Paintings);
        Assert.Empty(db.Objects);
        Assert.Empty(Directory.GetFiles(Path.Combine(studio.Folder, "objects"), "*", SearchOption.AllDirectories));
        Assert.Empty(Directory.GetFiles(Path.Combine(studio.Folder, "incoming")));
    }

    public void Dispose()
    {
        GC.SuppressFinalize(this);
        A.Dispose();
        if (_b.IsValueCreated) B.Dispose();
        Directory.Delete(Root, recursive: true);
    }

    private sealed class Standing : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => new(2026, 11, 26, 12, 0, 0, TimeSpan.Zero);
    }
}

/// <summary>A packed record that many tests spoil a copy of; the studio that is to refuse them stays empty.</summary>
[CollectionDefinition(nameof(PackedOnce))]
public sealed class PackedOnce : PackStudios, ICollectionFixture<PackedOnce>
{
    private int _copies;

    public PackedOnce()
    {
        (Painting, _) = PackOne(1, "once");
        Pack(A, Painting, this["once.zip"]);
    }

    /// <summary>The package as a folder; not to be changed.</summary>
    public string Bag => this["once"];

    public Guid Painting { get; }

    /// <summary>The package as a zip; not to be changed.</summary>
    public string Zip => this["once.zip"];

    /// <summary>A copy in a folder.</summary>
    public string Copy()
    {
        var copy = this[$"copy{++_copies}"];
        foreach (var file in Directory.GetFiles(this["once"], "*", SearchOption.AllDirectories))
        {
            var target = Path.Combine(copy, Path.GetRelativePath(this["once"], file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target);
        }
        return copy;
    }
}
