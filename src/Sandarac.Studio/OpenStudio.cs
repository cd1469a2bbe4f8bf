using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Datings;
using Sandarac.Studio.Record;
using Sandarac.Studio.Storage;

namespace Sandarac.Studio;

/// <summary>
/// One installation's data, opened: a record (SQLite in the folder, or PostgreSQL) and an object store (the folder). Several processes may
/// have one studio open at once, a server and an examination for instance: SQLite's WAL and the write-once store allow it.
/// </summary>
public sealed class OpenStudio : IDisposable
{
    private readonly string? _postgres;

    private OpenStudio(string folder, string? postgres, TimeProvider clock)
    {
        Folder = folder;
        Clock = clock;
        _postgres = postgres;
        Objects = new ObjectStore(folder, clock);
        Pyramids = new PyramidPool(Objects);
    }

    /// <summary>The studio's folder, full path.</summary>
    public string Folder { get; }

    /// <summary>The object store.</summary>
    public ObjectStore Objects { get; }

    /// <summary>Pyramids of the store, kept open for reading.</summary>
    public PyramidPool Pyramids { get; }

    /// <summary>Spectra that were analysed lately.</summary>
    internal AnalysedSpectra Spectra { get; } = new();

    /// <summary>Where its times come from.</summary>
    public TimeProvider Clock { get; }

    /// <summary>Connection string of the PostgreSQL database; null when the record is SQLite.</summary>
    internal string? Postgres => _postgres;

    internal DateTime Now => Clock.GetUtcNow().UtcDateTime;

    /// <summary>The day where people work: beside it a day lies in the past or in the future.</summary>
    internal DateOnly Today => DateOnly.FromDateTime(Clock.GetLocalNow().DateTime);

    /// <summary>Opens a studio, making it when the folder is new or empty: brings its tables up to date, removes unfinished files of processes that
    /// ended early, and marks their runs as interrupted.</summary>
    /// <param name="folder">The studio's folder.</param>
    /// <param name="postgres">Connection string of a PostgreSQL database for the record; null for SQLite in the folder.</param>
    /// <param name="clock">Where times come from; the system's clock by default.</param>
    /// <exception cref="InputProblem">The folder cannot be written, or holds something else; the database cannot be used.</exception>
    public static OpenStudio At(string folder, string? postgres = null, TimeProvider? clock = null)
    {
        var path = Path.GetFullPath(folder);
        RefuseOther(path);
        try
        {
            var studio = new OpenStudio(path, postgres, clock ?? TimeProvider.System);
            studio.PutInOrder();
            return studio;
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            throw new InputProblem("studio-folder", folder, $"The studio's folder cannot be written: {e.Message}", "Choose a folder you may write to, on a disk with room.", e);
        }
        catch (DbException e)
        {
            throw new InputProblem("studio-database", folder, $"The studio's database cannot be used: {e.Message}",
                postgres is null ? "If the file was damaged, restore it from a copy." : "Check that PostgreSQL runs and the connection string is right.", e);
        }
    }

    /// <summary>Whether a folder holds a studio.</summary>
    public static bool Exists(string folder) => Directory.Exists(Path.Combine(folder, "objects"));

    /// <summary>A new unit of work on the record; not thread-safe, dispose it.</summary>
    public StudioDb CreateDb() => _postgres is null
        ? SqliteStudioDb.At(Sqlite)
        : PostgresStudioDb.At(_postgres);

    /// <summary>Lets go of its files.</summary>
    public void Dispose()
    {
        Pyramids.Dispose();
        if (_postgres is not null) return;
        using var connection = new SqliteConnection(Sqlite);
        SqliteConnection.ClearPool(connection);
    }

    private string Sqlite => $"Data Source={Path.Combine(Folder, "studio.db")};Foreign Keys=True;Default Timeout=30";

    private static void RefuseOther(string path)
    {
        if (File.Exists(path))
            throw new InputProblem("studio-folder", path, "The studio's path is a file.", "Give a folder.");
        if (Directory.Exists(path) && !Exists(path) && Directory.EnumerateFileSystemEntries(path).Any())
            throw new InputProblem("not-a-studio", path, "The folder holds something, but not a studio.", "Give an empty folder, or a new one.");
    }

    private void PutInOrder()
    {
        using var gate = StoreLock.Enter(Folder);
        using var db = CreateDb();
        if (_postgres is null) PrepareSqlite(db);
        if (db.Database.GetPendingMigrations().Any()) db.Database.Migrate();
        Recovery.Sweep(Objects, db);
        Recovery.MarkInterrupted(db, Now);
        SearchIndex.Complete(db);
    }

    /// <summary>WAL lets others read while one writes. EF Core guards migrations by a row that a killed process leaves behind for ever; whoever
    /// holds the studio's lock may remove it.</summary>
    private static void PrepareSqlite(StudioDb db)
    {
        db.Database.ExecuteSqlRaw("PRAGMA journal_mode = WAL;");
        db.Database.ExecuteSqlRaw("DROP TABLE IF EXISTS \"__EFMigrationsLock\";");
    }
}
