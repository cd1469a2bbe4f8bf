using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Tests.Support;

/// <summary>Where a studio's record is kept.</summary>
public enum Database
{
    Sqlite,
    Postgres,
}

/// <summary>A studio in a temporary folder, deleted afterwards.</summary>
public sealed class TemporaryStudio : IDisposable
{
    private readonly string? _postgres;

    public TemporaryStudio(Database database = Database.Sqlite, PostgresServer? server = null)
    {
        _postgres = database == Database.Postgres ? server!.NewDatabase() : null;
        Root = Directory.CreateTempSubdirectory("studio-test-").FullName;
        Studio = Open();
    }

    /// <summary>The temporary folder; the studio is in <c>studio</c> below it.</summary>
    public string Root { get; }

    public string Folder => Path.Combine(Root, "studio");

    public OpenStudio Studio { get; private set; }

    public OpenStudio Open() => OpenStudio.At(Folder, _postgres);

    /// <summary>Closes and opens, as after a restart.</summary>
    public OpenStudio Reopen()
    {
        Studio.Dispose();
        return Studio = Open();
    }

    public Painting AddPainting(string title = "Ferry at low water")
    {
        var painting = new Painting { Title = title, WidthMm = 412, HeightMm = 518, SizeOrigin = ScaleOrigin.Measured, CreatedAt = DateTime.UtcNow };
        using var db = Studio.CreateDb();
        db.Paintings.Add(painting);
        db.SaveChanges();
        return painting;
    }

    public void Dispose()
    {
        Studio.Dispose();
        Directory.Delete(Root, recursive: true);
    }
}
